import type { SchemaClass } from '@ribband/platform';
import { HullShape } from '../shape/hull-shape.entity.js';
import { ShapeResolver } from '../shape/shape.resolver.js';
import { Shapes } from '../shape/shapes.service.js';
import { TimberBookResolver } from './book.resolver.js';
import { TimberBooks } from './book.service.js';
import { FlitchEntity } from './flitch.entity.js';
import { LayUpEntity } from './lay-up.entity.js';
import { LayUpHandler } from './lay-up.handler.js';
import { LayUps } from './lay-ups.service.js';
import { TimberLog } from './log.entity.js';
import { MoistureReading } from './moisture-reading.entity.js';
import { NewPieces } from './new-pieces.js';
import { SearchTrip } from './search-trip.entity.js';
import { TimberRules } from './settings.service.js';
import { TimberSource } from './source.entity.js';
import { StockHold } from './stock-hold.entity.js';
import { StockHoldFields } from './stock-hold.fields.js';
import { StockHolds } from './stock-holds.service.js';
import { StockToOrder } from './stock-orders.service.js';
import { StockPromise } from './stock-promise.entity.js';
import { FlitchFields, LogFields, TripFields } from './stock.fields.js';
import { Stock } from './stock.service.js';
import { TimberSettings } from './timber-settings.entity.js';

/** What the vessel's module and schema take from her shape and the timber book. */
export const timberEntities: SchemaClass[] = [
  HullShape,
  TimberSettings,
  TimberSource,
  SearchTrip,
  TimberLog,
  FlitchEntity,
  MoistureReading,
  LayUpEntity,
  StockPromise,
  StockHold,
];

export const timberProviders = [
  Shapes,
  ShapeResolver,
  NewPieces,
  StockHolds,
  StockToOrder,
  Stock,
  TimberRules,
  LayUps,
  LayUpHandler,
  TimberBooks,
  TimberBookResolver,
  FlitchFields,
  LogFields,
  TripFields,
  StockHoldFields,
];
