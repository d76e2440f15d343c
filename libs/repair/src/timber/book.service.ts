import type { Caller } from '@ribband/access';
import { YardDay } from '@ribband/crew';
import {
  equilibriumMoisture,
  type LayUp,
  pieceWeight,
  type StockPattern,
  toFeet,
  toInches,
  wantedList,
} from '@ribband/hull';
import { ComputeJob, Database } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager, EntityTarget, ObjectLiteral } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import type { HaulOut } from '../haul-out/haul-out.entity.js';
import { LayUpType, TimberBook, WantedShape, WantedWood, WoodStanding } from './book.types.js';
import { FlitchEntity } from './flitch.entity.js';
import { type HoldFacts, pieceDays } from './holds.js';
import { LayUpEntity } from './lay-up.entity.js';
import { TimberLog } from './log.entity.js';
import { MoistureReading } from './moisture-reading.entity.js';
import { pointsOf } from '../shape/points.js';
import { SearchTrip } from './search-trip.entity.js';
import { settingsOf } from './settings.records.js';
import { TimberSource } from './source.entity.js';
import { StockPromise } from './stock-promise.entity.js';
import type { TimberSettings } from './timber-settings.entity.js';
import { NewPieces, type Piece } from './new-pieces.js';

/** Reads the timber book. */
@Injectable()
export class TimberBooks {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(NewPieces) private readonly newPieces: NewPieces,
  ) {}

  /** Null before a haul-out. */
  async read({ organisationId }: Caller): Promise<TimberBook | null> {
    const manager = this.database.read;
    const haulOut = await haulOutInForce(manager, organisationId);
    if (!haulOut) return null;
    const settings = await settingsOf(manager, haulOut);
    const flitches = await listed(manager, FlitchEntity, organisationId, { mark: 'ASC' }, 1000);
    const [kept, proposed] = await Promise.all(
      (['kept', 'proposed'] as const).map((state) =>
        manager.findOneBy(LayUpEntity, { organisationId, state }),
      ),
    );
    const wood = await this.newPieces.of(manager, haulOut);
    return Object.assign(new TimberBook(), {
      settings,
      restsAtPercent: equilibriumMoisture(settings.fahrenheit, settings.humidity),
      shapeIsMeasured: wood.shapeIsMeasured,
      wood: await this.wanted(manager, haulOut, wood.pieces, settings, flitches, kept ?? null),
      flitches,
      logs: await listed(manager, TimberLog, organisationId, { mark: 'ASC' }, 500),
      sources: await listed(manager, TimberSource, organisationId, { name: 'ASC' }, 500),
      trips: await listed(manager, SearchTrip, organisationId, { wentOn: 'DESC' }, 500),
      kept: kept ? told(kept, wood.pieces) : null,
      proposed: proposed ? told(proposed, wood.pieces) : null,
      ...(await layUpAsked(manager, organisationId)),
    });
  }

  private async wanted(
    manager: EntityManager,
    { organisationId }: HaulOut,
    pieces: Piece[],
    settings: TimberSettings,
    flitches: FlitchEntity[],
    layUp: LayUpEntity | null,
  ): Promise<WantedWood[]> {
    const promises = await manager.findBy(StockPromise, { organisationId });
    const readings = await manager.findBy(MoistureReading, { organisationId });
    const today = await this.yardDay.today(organisationId, manager);
    const facts: HoldFacts | null = layUp && { pieces, layUp, flitches, readings, promises, settings, today };
    const days = facts ? pieceDays(facts) : new Map<string, { on: string; why: string }>();
    return pieces.map((piece) => {
      const day = days.get(piece.key);
      const placed = layUp?.result.placed.find((one) => one.pattern === piece.key);
      return Object.assign(new WantedWood(), {
        piece: piece.key,
        name: piece.name,
        use: piece.use,
        shape: piece.pattern && shapeOf(piece.pattern, settings.poundsACubicFoot),
        standing: standingOf(
          layUp?.result ?? null,
          piece.key,
          placed && flitches.find((one) => one.id === placed.flitch),
        ),
        flitchId: placed?.flitch ?? null,
        fromOn: day?.on ?? null,
        why: day?.why ?? null,
        expectedOn: promises.find((one) => one.piece === piece.key)?.expectedOn ?? null,
      });
    });
  }
}

const listed = <Row extends ObjectLiteral>(
  manager: EntityManager,
  entity: EntityTarget<Row>,
  organisationId: string,
  order: Record<string, 'ASC' | 'DESC'>,
  take: number,
): Promise<Row[]> => manager.find(entity, { where: { organisationId }, order, take } as never);

/** How far the lay-up is that was asked for last. */
async function layUpAsked(
  manager: EntityManager,
  organisationId: string,
): Promise<Pick<TimberBook, 'isLayingUp' | 'layUpFailure'>> {
  const last = await manager.findOne(ComputeJob, {
    where: { organisationId, name: 'lay-up' },
    order: { askedAt: 'DESC', id: 'DESC' },
  });
  return {
    isLayingUp: last?.state === 'waiting' || last?.state === 'running',
    layUpFailure: last?.state === 'failed' ? (last.message ?? 'It broke off.') : null,
  };
}

function standingOf(layUp: LayUp | null, piece: string, flitch: FlitchEntity | undefined): WoodStanding {
  if (flitch) return flitch.usedOn === null ? WoodStanding.LAID_UP : WoodStanding.CUT;
  return layUp?.wanting.some((one) => one.pattern === piece)
    ? WoodStanding.WANTING
    : WoodStanding.NOT_LAID_UP;
}

function shapeOf(pattern: StockPattern, density: number): WantedShape | null {
  const [wanted] = wantedList([pattern]);
  if (!wanted) return null;
  const { length, slabWidth, thickness, sweep, sweepAt, boardFeet, outline } = wanted;
  const weight = pieceWeight(toInches(thickness), toInches(slabWidth), toFeet(length), density);
  return Object.assign(new WantedShape(), {
    length: Math.round(length),
    slabWidth: Math.round(slabWidth),
    thickness: Math.round(thickness),
    sweep: Math.round(sweep),
    sweepAt,
    boardFeet,
    pounds: Math.round(weight.pounds),
    carriers: weight.carriers,
    liftingGear: weight.liftingGear,
    points: pointsOf(outline),
  });
}

function told({ id, madeOn, keptBy, result }: LayUpEntity, pieces: Piece[]): LayUpType {
  const names = new Map(pieces.map((piece) => [piece.key, piece.name]));
  const name = (piece: string) => names.get(piece) ?? piece;
  return Object.assign(new LayUpType(), {
    id,
    madeOn,
    keptBy,
    placed: result.placed.map((one) => ({
      piece: one.pattern,
      name: name(one.pattern),
      flitchId: one.flitch,
      points: pointsOf(one.outline),
      turnedOver: one.turnedOver,
      grainRunOut: one.runOut,
    })),
    wanting: result.wanting.map((one) => `${name(one.pattern)}: ${one.why}`),
    yieldShare: result.stockUsed > 0 ? result.stockAtLeast / result.stockUsed : null,
  });
}
