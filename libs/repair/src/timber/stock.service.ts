import { Audit, permit, type Caller } from '@ribband/access';
import { YardDay, volunteerOf } from '@ribband/crew';
import { flitchOf } from '@ribband/hull';
import { Database, expectVersion, newId, RealClock, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager, EntityTarget, ObjectLiteral } from 'typeorm';
import { refusingAs } from '../hull/hull-refusals.js';
import { deliveryOf, refuseOddPromise } from './deliveries.js';
import { FlitchEntity } from './flitch.entity.js';
import { TimberLog } from './log.entity.js';
import { MoistureReading } from './moisture-reading.entity.js';
import { said, saidDay, saidDayOrNone, saidNumber, saidOrNone, saidPast } from './said.js';
import { SearchTrip } from './search-trip.entity.js';
import { TimberSource } from './source.entity.js';
import { StockHolds } from './stock-holds.service.js';
import type { FlitchInput, SearchTripInput, TimberLogInput, TimberSourceInput } from './stock.inputs.js';

const keepers = ['shipwright', 'coordinator'] as const;

interface Kept extends ObjectLiteral {
  id: string;
  version: number;
  organisationId: string;
}

/** What there is of timber: sources, logs, flitches, readings, and trips to find more. */
@Injectable()
export class Stock {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(StockHolds) private readonly holds: StockHolds,
  ) {}

  async keepSource(caller: Caller, input: TimberSourceInput): Promise<TimberSource> {
    permit(caller, ...keepers);
    const values = { name: said('name', input.name), kind: input.kind, note: saidOrNone('note', input.note) };
    return this.database.write(async (manager) => {
      const fresh = { thankedOn: null, thankedBy: null };
      const kept = await this.keep(manager, caller, TimberSource, 'timbersource', input, values, fresh);
      await this.audit.note(manager, caller, 'keepTimberSource', kept.id, { name: kept.name });
      return kept;
    });
  }

  /** Somebody said thank you. */
  async thank(caller: Caller, id: string, on: string | null): Promise<TimberSource> {
    permit(caller, 'director', ...keepers);
    return this.database.write(async (manager) => {
      const source = await rowOf(manager, TimberSource, caller.organisationId, id, 'id');
      const today = await this.yardDay.today(caller.organisationId, manager);
      const changes = {
        thankedOn: on === null ? today : saidPast('on', on, today),
        thankedBy: caller.name,
        version: source.version + 1,
      };
      await manager.update(TimberSource, { id }, changes);
      await this.audit.note(manager, caller, 'thankTimberSource', id, { name: source.name });
      return Object.assign(source, changes);
    });
  }

  async keepTrip(caller: Caller, input: SearchTripInput): Promise<SearchTrip> {
    permit(caller, ...keepers);
    const { organisationId } = caller;
    const volunteerIds = [...new Set(input.volunteerIds)];
    saidNumber('volunteerIds', volunteerIds.length, 1, 40, 'people');
    return this.database.write(async (manager) => {
      for (const id of volunteerIds) await volunteerOf(manager, organisationId, id);
      const trip: SearchTrip = {
        id: newId('timbertrip'),
        organisationId,
        wentOn: saidPast('wentOn', input.wentOn, await this.yardDay.today(organisationId, manager)),
        whereTo: said('whereTo', input.whereTo),
        minutes: saidNumber('minutes', input.minutes, 1, 1440, 'minutes'),
        volunteerIds,
        found: saidOrNone('found', input.found),
        enteredBy: caller.name,
      };
      await manager.insert(SearchTrip, trip);
      await this.audit.note(manager, caller, 'keepSearchTrip', trip.id, { minutes: trip.minutes });
      return trip;
    });
  }

  async keepLog(caller: Caller, input: TimberLogInput): Promise<TimberLog> {
    permit(caller, ...keepers);
    const values = {
      mark: said('mark', input.mark, 40),
      species: said('species', input.species, 100),
      diameterInches: saidNumber('diameterInches', input.diameterInches, 4, 96, 'inches'),
      lengthFeet: saidNumber('lengthFeet', input.lengthFeet, 1, 120, 'feet'),
      cameOn: saidDayOrNone('cameOn', input.cameOn),
      reservedFor: saidOrNone('reservedFor', input.reservedFor, 200),
      note: saidOrNone('note', input.note),
      sourceId: input.sourceId ?? null,
    };
    return this.database.write(async (manager) => {
      await knownOrNone(manager, TimberSource, caller.organisationId, values.sourceId, 'sourceId');
      await markIsFree(manager, TimberLog, caller.organisationId, values.mark, input.id ?? null);
      const kept = await this.keep(manager, caller, TimberLog, 'timberlog', input, values, {});
      await this.audit.note(manager, caller, 'keepTimberLog', kept.id, { mark: kept.mark });
      return kept;
    });
  }

  async keepFlitch(caller: Caller, input: FlitchInput): Promise<FlitchEntity> {
    permit(caller, ...keepers);
    const { thickness, length, widths, sweep, sapwood } = input;
    saidNumber('widths', widths.length, 2, 12, 'widths');
    saidNumber('defects', input.defects.length, 0, 20, 'defects');
    const defects = input.defects.map(({ along, across, length: long, width }) => {
      return { along, across, length: long, width };
    });
    const mark = said('mark', input.mark, 40);
    const taped = { thickness, length, widths, sweep, sapwood, defects };
    refusingAs('input', () => flitchOf({ key: mark, name: mark, ...taped }));
    const values = {
      mark,
      taped,
      species: said('species', input.species, 100),
      use: input.use,
      logId: input.logId ?? null,
      sourceId: input.sourceId ?? null,
      expectedOn: saidDayOrNone('expectedOn', input.expectedOn),
      lies: saidOrNone('lies', input.lies, 200),
      reservedFor: saidOrNone('reservedFor', input.reservedFor, 200),
      usedOn: saidDayOrNone('usedOn', input.usedOn),
    };
    return this.database.write(async (manager) => {
      await knownOrNone(manager, TimberLog, caller.organisationId, values.logId, 'logId');
      await knownOrNone(manager, TimberSource, caller.organisationId, values.sourceId, 'sourceId');
      await markIsFree(manager, FlitchEntity, caller.organisationId, mark, input.id ?? null);
      const before = input.id
        ? await manager.findOneBy(FlitchEntity, { organisationId: caller.organisationId, id: input.id })
        : null;
      const today = await this.yardDay.today(caller.organisationId, manager);
      refuseOddPromise(values.expectedOn, before?.expectedOn ?? null, today);
      const delivery = deliveryOf(before, values.expectedOn, today);
      const kept = await this.keep(
        manager,
        caller,
        FlitchEntity,
        'flitch',
        input,
        { ...values, ...delivery },
        {},
      );
      await this.changed(manager, caller, 'keepFlitch', kept.id, { mark });
      return kept;
    });
  }

  async noteMoisture(
    caller: Caller,
    flitchId: string,
    on: string,
    percent: number,
  ): Promise<MoistureReading> {
    permit(caller, ...keepers);
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const flitch = await rowOf(manager, FlitchEntity, organisationId, flitchId, 'flitchId');
      const reading: MoistureReading = {
        id: newId('moisture'),
        organisationId,
        flitchId,
        readOn: saidPast('on', saidDay('on', on), await this.yardDay.today(organisationId, manager)),
        percent: saidNumber('percent', percent, 1, 200, 'percent of dry weight'),
        enteredBy: caller.name,
        enteredAt: this.clock.now(),
        withdrawnReason: null,
      };
      await manager.insert(MoistureReading, reading);
      await this.changed(manager, caller, 'noteMoisture', reading.id, { mark: flitch.mark, percent });
      return reading;
    });
  }

  async withdrawMoisture(caller: Caller, id: string, reason: string): Promise<MoistureReading> {
    permit(caller, ...keepers);
    const withdrawnReason = said('reason', reason, 500);
    return this.database.write(async (manager) => {
      const reading = await rowOf(manager, MoistureReading, caller.organisationId, id, 'id');
      if (reading.withdrawnReason !== null)
        refuse('CHANGED_MEANWHILE', 'This reading was withdrawn already.', {
          field: 'id',
          remedy: 'Read the timber book again: it says why.',
        });
      await manager.update(MoistureReading, { id }, { withdrawnReason });
      await this.changed(manager, caller, 'withdrawMoisture', id, { reason: withdrawnReason });
      return Object.assign(reading, { withdrawnReason });
    });
  }

  /** A new row, or an edit of one whose version was read. */
  private async keep<Row extends Kept>(
    manager: EntityManager,
    caller: Caller,
    entity: EntityTarget<Row>,
    word: string,
    input: { id?: string | null; version?: number | null },
    values: Partial<Row>,
    fresh: Partial<Row>,
  ): Promise<Row> {
    const { organisationId } = caller;
    if (input.id === null || input.id === undefined) {
      const row = { id: newId(word), organisationId, version: 1, ...fresh, ...values } as Row;
      await manager.insert(entity, row);
      return row;
    }
    const row = await rowOf(manager, entity, organisationId, input.id, 'id');
    expectVersion(row, input.version ?? 0);
    const changes = { ...values, version: row.version + 1 };
    await manager.update(entity, { id: row.id }, changes);
    return Object.assign(row, changes);
  }

  private async changed(
    manager: EntityManager,
    caller: Caller,
    operation: string,
    id: string,
    said: Record<string, string | number>,
  ): Promise<void> {
    if (await this.holds.settle(manager, caller.organisationId))
      await this.revisions.requestPlan(manager, caller.organisationId, operation);
    await this.audit.note(manager, caller, operation, id, said);
  }
}

async function rowOf<Row extends { id: string; organisationId: string }>(
  manager: EntityManager,
  entity: EntityTarget<Row>,
  organisationId: string,
  id: string,
  field: string,
): Promise<Row> {
  const row = await manager.findOneBy(entity, { organisationId, id } as never);
  return (
    row ??
    refuse('NOT_FOUND', 'There is no such entry in the timber book.', { field, remedy: 'Read it again.' })
  );
}

async function knownOrNone(
  manager: EntityManager,
  entity: EntityTarget<{ id: string; organisationId: string }>,
  organisationId: string,
  id: string | null,
  field: string,
): Promise<void> {
  if (id !== null) await rowOf(manager, entity, organisationId, id, field);
}

async function markIsFree(
  manager: EntityManager,
  entity: EntityTarget<{ id: string; organisationId: string; mark: string }>,
  organisationId: string,
  mark: string,
  id: string | null,
): Promise<void> {
  const other = await manager.findOneBy(entity, { organisationId, mark });
  if (other && other.id !== id)
    refuse('ALREADY_EXISTS', `"${mark}" is painted on another one already.`, {
      field: 'mark',
      remedy: 'A mark that no other has.',
    });
}
