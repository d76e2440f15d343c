import { idsByRef, insertAll, known, Volunteer } from '@ribband/crew';
import { localToInstant, newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { HullShape } from '../shape/hull-shape.entity.js';
import { pointsFrom } from '../shape/points.js';
import { FlitchEntity } from './flitch.entity.js';
import { LayUpEntity } from './lay-up.entity.js';
import { TimberLog } from './log.entity.js';
import { MoistureReading } from './moisture-reading.entity.js';
import { SearchTrip } from './search-trip.entity.js';
import { TimberSource } from './source.entity.js';
import { StockHold } from './stock-hold.entity.js';
import { StockPromise } from './stock-promise.entity.js';
import type { TimberDocument } from './timber-document.js';
import { TimberSettings } from './timber-settings.entity.js';

type Ids = ReadonlyMap<string, string>;

/** Takes the timber book out of the records; her shape and its settings go with the haul-out. */
export async function eraseTimber(manager: EntityManager, organisationId: string): Promise<void> {
  const all = [
    StockHold,
    StockPromise,
    LayUpEntity,
    MoistureReading,
    FlitchEntity,
    TimberLog,
    SearchTrip,
    TimberSource,
  ];
  for (const entity of all) await manager.delete(entity, { organisationId });
}

/** Writes the timber's part of a document that has been checked whole; haul-out and crew must be there. */
export async function writeTimber(
  manager: EntityManager,
  organisationId: string,
  document: TimberDocument,
  entered: { enteredBy: string; enteredAt: number },
): Promise<void> {
  const haulOut = await haulOutInForce(manager, organisationId);
  if (!haulOut) throw new Error('The timber book is of a haul-out');
  const { enteredBy, enteredAt } = entered;
  const here = { haulOutId: haulOut.id, organisationId };
  if (document.shape)
    await manager.insert(HullShape, {
      id: newId('shape'),
      ...here,
      version: 1,
      measured: document.shape as never,
      keptBy: enteredBy,
      keptAt: enteredAt,
    });
  if (document.settings)
    await manager.insert(TimberSettings, {
      id: newId('timbersettings'),
      ...here,
      version: 1,
      ...document.settings,
    });
  const flitches = await writeStock(manager, organisationId, document, entered);
  await writeTrips(manager, organisationId, document, enteredBy);
  const { layUp } = document;
  if (layUp)
    await manager.insert(LayUpEntity, {
      id: newId('layup'),
      organisationId,
      state: 'kept',
      result: {
        placed: layUp.placed.map(({ piece, flitch, points, turnedOver, grainRunOut }) => ({
          pattern: piece,
          flitch: known(flitches, flitch),
          outline: pointsFrom(points),
          turnedOver,
          runOut: grainRunOut,
        })),
        wanting: layUp.wanting.map(({ piece, why }) => ({ pattern: piece, why })),
        stockUsed: layUp.stockUsed,
        stockAtLeast: layUp.stockAtLeast,
      },
      madeAt: localToInstant(layUp.madeOn, '12:00', haulOut.timeZone),
      madeOn: layUp.madeOn,
      keptBy: layUp.keptBy,
    });
  await insertAll(
    manager,
    StockPromise,
    document.promises.map(({ by, ...promise }) => ({
      id: newId('stockpromise'),
      organisationId,
      enteredBy: by,
      ...promise,
      promisedOn: promise.promisedOn ?? promise.expectedOn,
    })),
  );
}

/** @returns ids of the flitches by their marks */
async function writeStock(
  manager: EntityManager,
  organisationId: string,
  document: TimberDocument,
  { enteredAt }: { enteredAt: number },
): Promise<Ids> {
  const sources = document.sources.map(({ ref: _ref, ...source }) => ({
    id: newId('timbersource'),
    organisationId,
    version: 1,
    ...source,
  }));
  await insertAll(manager, TimberSource, sources);
  const sourceIds = new Map(document.sources.map(({ ref }, at) => [ref, sources[at]?.id ?? '']));
  const idOf = (ids: Ids, key: string | null) => (key === null ? null : known(ids, key));
  const logs = document.logs.map(({ source, ...log }) => ({
    id: newId('timberlog'),
    organisationId,
    version: 1,
    sourceId: idOf(sourceIds, source),
    ...log,
  }));
  await insertAll(manager, TimberLog, logs);
  const logIds = new Map(logs.map((log) => [log.mark, log.id]));
  const flitches = document.flitches.map(({ source, log, readings: _readings, ...flitch }) => ({
    id: newId('flitch'),
    organisationId,
    version: 1,
    sourceId: idOf(sourceIds, source),
    logId: idOf(logIds, log),
    ...flitch,
    promisedOn: flitch.promisedOn ?? flitch.expectedOn,
    cameOn: flitch.cameOn ?? null,
  }));
  await insertAll(manager, FlitchEntity, flitches as never);
  const flitchIds = new Map(flitches.map((flitch) => [flitch.mark, flitch.id]));
  await insertAll(
    manager,
    MoistureReading,
    document.flitches.flatMap(({ mark, readings }) =>
      readings.map(({ on, percent, by, withdrawnReason }) => ({
        id: newId('moisture'),
        organisationId,
        flitchId: known(flitchIds, mark),
        readOn: on,
        percent,
        enteredBy: by,
        enteredAt,
        withdrawnReason,
      })),
    ),
  );
  return flitchIds;
}

async function writeTrips(
  manager: EntityManager,
  organisationId: string,
  document: TimberDocument,
  enteredBy: string,
): Promise<void> {
  const volunteers = await idsByRef(manager, Volunteer, organisationId);
  await insertAll(
    manager,
    SearchTrip,
    document.trips.map(({ volunteers: refs, ...trip }) => ({
      id: newId('timbertrip'),
      organisationId,
      volunteerIds: refs.map((ref) => known(volunteers, ref)),
      enteredBy,
      ...trip,
    })),
  );
}
