import { CurrentCaller, type Caller, type RequestContext } from '@ribband/access';
import { groupedBy, inOrderOf, loader, volunteerLoader, YardDay } from '@ribband/crew';
import {
  flitchOf,
  internationalQuarter,
  LOG_RULES,
  originInWords,
  SHAPED_YIELD,
  usableLog,
  wetness,
} from '@ribband/hull';
import { Database } from '@ribband/platform';
import { Inject } from '@nestjs/common';
import { Context, Int, Parent, ResolveField, Resolver } from '@nestjs/graphql';
import { In, type EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { pointsOf } from '../shape/points.js';
import { FlitchEntity } from './flitch.entity.js';
import { TimberLog } from './log.entity.js';
import { MoistureReading } from './moisture-reading.entity.js';
import { SearchTrip } from './search-trip.entity.js';
import { settingsOf } from './settings.records.js';
import { TimberSource } from './source.entity.js';
import { countedReadings, flitchDay } from './stock-days.js';
import { FlitchDrawing, FlitchTape, LogYield, StockDayType } from './stock.types.js';
import type { TimberSettings } from './timber-settings.entity.js';

type Loaders = Pick<RequestContext, 'loaders'>;

const sourceLoader = (context: Loaders, read: EntityManager) =>
  loader(context, 'repair.timberSource', async (ids: readonly string[]) =>
    inOrderOf(ids, await read.findBy(TimberSource, { id: In([...ids]) })),
  );

const logLoader = (context: Loaders, read: EntityManager) =>
  loader(context, 'repair.timberLog', async (ids: readonly string[]) =>
    inOrderOf(ids, await read.findBy(TimberLog, { id: In([...ids]) })),
  );

const readingsLoader = (context: Loaders, read: EntityManager) =>
  loader(context, 'repair.moisture', async (ids: readonly string[]) => {
    const rows = await read.find(MoistureReading, {
      where: { flitchId: In([...ids]) },
      order: { readOn: 'ASC', id: 'ASC' },
    });
    return groupedBy(ids, rows, (row) => row.flitchId);
  });

/** What the timber book reckons with today, once a request. */
interface Ground {
  settings: TimberSettings | null;
  today: string;
}

const groundLoader = (context: Loaders, read: EntityManager, yardDay: YardDay) =>
  loader(context, 'repair.timberGround', (organisationIds: readonly string[]): Promise<Ground[]> =>
    Promise.all(
      organisationIds.map(async (organisationId) => {
        const haulOut = await haulOutInForce(read, organisationId);
        const settings = haulOut && (await settingsOf(read, haulOut));
        return { settings, today: await yardDay.today(organisationId, read) };
      }),
    ),
  );

@Resolver(() => FlitchEntity)
export class FlitchFields {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  @ResolveField(() => FlitchTape, { description: 'Its measures.' })
  taped(@Parent() flitch: FlitchEntity): FlitchTape {
    return flitch.taped;
  }

  @ResolveField(() => FlitchDrawing, { description: 'It drawn to scale.' })
  drawing(@Parent() { id, mark, taped }: FlitchEntity): FlitchDrawing {
    const { outline, grain, defects } = flitchOf({ key: id, name: mark, ...taped });
    return { outline: pointsOf(outline), grain: pointsOf(grain), defects: defects.map(pointsOf) };
  }

  @ResolveField(() => [MoistureReading], { description: 'Moisture readings, oldest first; at most 200.' })
  async readings(
    @Parent() flitch: FlitchEntity,
    @Context() context: RequestContext,
  ): Promise<MoistureReading[]> {
    return (await readingsLoader(context, this.database.read).load(flitch.id)).slice(-200);
  }

  @ResolveField(() => String, { nullable: true, description: 'What the newest reading means for planking.' })
  async wetness(@Parent() flitch: FlitchEntity, @Context() context: RequestContext): Promise<string | null> {
    const readings = await readingsLoader(context, this.database.read).load(flitch.id);
    const newest = countedReadings(readings).at(-1);
    return newest ? wetness(newest.percent) : null;
  }

  @ResolveField(() => StockDayType, { nullable: true, description: 'When it can be sawn.' })
  async ready(
    @Parent() flitch: FlitchEntity,
    @Context() context: RequestContext,
  ): Promise<StockDayType | null> {
    const { read } = this.database;
    const { settings, today } = await groundLoader(context, read, this.yardDay).load(flitch.organisationId);
    if (settings === null) return null;
    return flitchDay(flitch, await readingsLoader(context, read).load(flitch.id), settings, today);
  }

  @ResolveField(() => TimberSource, { nullable: true, description: 'Who it comes from.' })
  source(
    @Parent() { sourceId }: FlitchEntity,
    @Context() context: RequestContext,
  ): Promise<TimberSource | null> {
    return sourceId === null
      ? Promise.resolve(null)
      : sourceLoader(context, this.database.read).load(sourceId);
  }

  @ResolveField(() => TimberLog, { nullable: true, description: 'The log that it was sawn from.' })
  log(@Parent() { logId }: FlitchEntity, @Context() context: RequestContext): Promise<TimberLog | null> {
    return logId === null ? Promise.resolve(null) : logLoader(context, this.database.read).load(logId);
  }
}

@Resolver(() => TimberLog)
export class LogFields {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  @ResolveField(() => TimberSource, { nullable: true, description: 'Who it comes from.' })
  source(
    @Parent() { sourceId }: TimberLog,
    @Context() context: RequestContext,
  ): Promise<TimberSource | null> {
    return sourceId === null
      ? Promise.resolve(null)
      : sourceLoader(context, this.database.read).load(sourceId);
  }

  @ResolveField(() => LogYield, { nullable: true, description: 'What it gives.' })
  async gives(@Parent() log: TimberLog, @Context() context: RequestContext): Promise<LogYield | null> {
    const { read } = this.database;
    const { settings } = await groundLoader(context, read, this.yardDay).load(log.organisationId);
    return settings && yieldOf(log, settings);
  }
}

function yieldOf({ diameterInches, lengthFeet }: TimberLog, settings: TimberSettings): LogYield {
  const { diameter, square } = usableLog(diameterInches, settings.usableShare);
  const scale = internationalQuarter(diameterInches, lengthFeet);
  const { planks, 'sawn futtocks': futtocks } = SHAPED_YIELD;
  return {
    scales: LOG_RULES.map(({ name, origin, boardFeet }) => ({
      rule: name,
      source: originInWords(origin),
      boardFeet: boardFeet(diameterInches, lengthFeet),
    })),
    usableInches: diameter,
    squareInches: square,
    futtocksLow: scale * futtocks.low,
    futtocksHigh: scale * futtocks.high,
    planksLow: scale * planks.low,
    planksHigh: scale * planks.high,
    pounds: Math.round(Math.PI * (diameterInches / 24) ** 2 * lengthFeet * settings.poundsACubicFoot),
  };
}

@Resolver(() => SearchTrip)
export class TripFields {
  constructor(@Inject(Database) private readonly database: Database) {}

  @ResolveField(() => Int, { description: 'All their minutes together.' })
  personMinutes(@Parent() { minutes, volunteerIds }: SearchTrip): number {
    return minutes * volunteerIds.length;
  }

  @ResolveField(() => [String], { description: 'Who went; empty for volunteers who ask. At most 40.' })
  async names(
    @CurrentCaller() caller: Caller,
    @Parent() { volunteerIds }: SearchTrip,
    @Context() context: RequestContext,
  ): Promise<string[]> {
    if (caller.role === 'volunteer') return [];
    const people = volunteerLoader(context, this.database.read);
    return Promise.all(volunteerIds.map(async (id) => (await people.load(id)).name));
  }
}
