import { Audit, permit, type Caller } from '@ribband/access';
import { type AgeTable, airFault, heatRest, type PermitKind, type TagKind, YardDay } from '@ribband/crew';
import { addDays, Database, isDay, newId, refuse, Revisions, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull, type EntityManager } from 'typeorm';
import { isHazard } from '../hazards/hazard-catalogue.js';
import { wordsGiven } from '../words.js';
import { RosterView } from '../roster-view/roster-view.js';
import { Task } from '../tasks/task.entity.js';
import { dayBounds } from '../tasks/yard-board.js';
import { Tool } from '../tools/tool.entity.js';
import { DayWeatherEntity } from './day-weather.entity.js';
import { Loudness } from './loudness.entity.js';
import { Permit } from './permit.entity.js';
import { SafetyTag } from './safety-tag.entity.js';
import { YardSafety } from './yard-safety.entity.js';

export interface PermitDraft {
  kind: PermitKind;
  taskId: string | null;
  by: string;
  /** Last day; closed spaces and hot work end with the day's turnout whatever it says. */
  untilOn: string | null;
  oxygenPercent: number | null;
  flammablePercent: number | null;
  note: string | null;
}

export type WeatherDraft = Omit<DayWeatherEntity, 'id' | 'organisationId' | 'writtenBy'>;

/** Permits of whole days last no longer than this without another look. Common practice. */
const longestPermitDays = 92;

/** Permits, inspection tags, weather and noise as people at the yard write them down. */
@Injectable()
export class SafetyRecords {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RosterView) private readonly roster: RosterView,
  ) {}

  /** Not closed and not over, soonest to end first; at most 200. */
  async openPermits({ organisationId }: Caller): Promise<Permit[]> {
    const now = await this.clock.now(organisationId);
    const rows = await this.database.read.find(Permit, {
      where: { organisationId, closedAt: IsNull() },
      order: { expiresAt: 'ASC', id: 'ASC' },
    });
    return rows.filter((row) => row.expiresAt > now).slice(0, 200);
  }

  /** In use, soonest to lapse first, those that lapsed among them; at most 200. */
  tags({ organisationId }: Caller): Promise<SafetyTag[]> {
    return this.database.read.find(SafetyTag, {
      where: { organisationId, withdrawnBy: IsNull() },
      order: { expiresOn: 'ASC', id: 'ASC' },
      take: 200,
    });
  }

  weatherOf({ organisationId }: Caller, heldOn: string): Promise<DayWeatherEntity | null> {
    return this.database.read.findOneBy(DayWeatherEntity, { organisationId, heldOn });
  }

  /** At most 100. */
  loudness({ organisationId }: Caller): Promise<Loudness[]> {
    return this.database.read.find(Loudness, { where: { organisationId }, order: { id: 'ASC' }, take: 100 });
  }

  settings({ organisationId }: Caller): Promise<YardSafety | null> {
    return this.database.read.findOneBy(YardSafety, { organisationId });
  }

  /** Writes down that a competent person has looked. Readings outside their limits are not taken. */
  async openPermit(caller: Caller, draft: PermitDraft): Promise<Permit> {
    permit(caller, 'shipwright', 'coordinator', 'director');
    const by = wordsGiven(draft.by, 'by', 2, 200, 'The name of who looked.');
    const endsWithTurnout = draft.kind === 'enclosed-space' || draft.kind === 'hot-work';
    const fault = draft.kind === 'enclosed-space' ? airFault(draft) : null;
    if (fault !== null)
      refuse('BAD_INPUT', fault, {
        field: 'oxygenPercent',
        remedy: 'Nobody goes in. Ventilate, measure again, and write the new reading down.',
      });
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const now = await this.clock.now(organisationId, manager);
      const today = await this.yardDay.today(organisationId, manager);
      if (draft.taskId !== null && !(await manager.findOneBy(Task, { organisationId, id: draft.taskId })))
        refuse('NOT_FOUND', 'There is no such task.', { field: 'taskId' });
      const row: Permit = {
        ...draft,
        id: newId('permit'),
        organisationId,
        by,
        note: draft.note?.trim() ? draft.note.trim().slice(0, 1000) : null,
        opensAt: now,
        expiresAt: endsWithTurnout
          ? await this.endOfTurnout(manager, organisationId, today, now)
          : await this.endOfDay(manager, organisationId, lastDay(draft.untilOn, today)),
        closedAt: null,
        closedBy: null,
      };
      delete (row as Partial<PermitDraft>).untilOn;
      await manager.insert(Permit, row);
      await this.audit.note(manager, caller, 'openPermit', row.id, { kind: row.kind, by });
      return row;
    });
  }

  async closePermit(caller: Caller, id: string): Promise<Permit> {
    permit(caller, 'shipwright', 'coordinator', 'director');
    return this.database.write(async (manager) => {
      const row =
        (await manager.findOneBy(Permit, { organisationId: caller.organisationId, id })) ??
        refuse('NOT_FOUND', 'There is no such permit.', { field: 'id' });
      if (row.closedAt === null) {
        row.closedAt = await this.clock.now(caller.organisationId, manager);
        row.closedBy = caller.name;
        await manager.save(Permit, row);
        await this.audit.note(manager, caller, 'closePermit', id, {});
      }
      return row;
    });
  }

  /** Writes an inspection down: one that lapses before it was made, or is still to come, is none. */
  async hangTag(
    caller: Caller,
    draft: { kind: TagKind; name: string; inspectedOn: string; inspectedBy: string; expiresOn: string },
  ): Promise<SafetyTag> {
    permit(caller, 'shipwright', 'coordinator');
    const name = wordsGiven(draft.name, 'name', 2, 200, 'Which staging or gear, and where.');
    const inspectedBy = wordsGiven(draft.inspectedBy, 'inspectedBy', 2, 200, 'The name of who inspected it.');
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const today = await this.yardDay.today(organisationId, manager);
      if (!isDay(draft.inspectedOn) || draft.inspectedOn > today)
        refuse('BAD_INPUT', 'An inspection has been made, on a day that has come.', {
          field: 'inspectedOn',
          remedy: `${today} or a day before.`,
        });
      if (!isDay(draft.expiresOn) || draft.expiresOn < draft.inspectedOn)
        refuse('BAD_INPUT', 'It would lapse before it was inspected.', {
          field: 'expiresOn',
          remedy: `${draft.inspectedOn} or later.`,
        });
      const row: SafetyTag = {
        ...draft,
        id: newId('safetytag'),
        organisationId,
        name,
        inspectedBy,
        withdrawnBy: null,
      };
      await manager.insert(SafetyTag, row);
      await this.audit.note(manager, caller, 'hangTag', row.id, { kind: row.kind, name });
      return row;
    });
  }

  async withdrawTag(caller: Caller, id: string): Promise<SafetyTag> {
    permit(caller, 'shipwright', 'coordinator', 'director');
    return this.database.write(async (manager) => {
      const row =
        (await manager.findOneBy(SafetyTag, { organisationId: caller.organisationId, id })) ??
        refuse('NOT_FOUND', 'There is no such tag.', { field: 'id' });
      row.withdrawnBy ??= caller.name;
      await manager.save(SafetyTag, row);
      await this.audit.note(manager, caller, 'withdrawTag', id, {});
      return row;
    });
  }

  /** A day's weather, in place of what was written before. */
  async writeWeather(caller: Caller, draft: WeatherDraft): Promise<DayWeatherEntity> {
    permit(caller, 'shipwright', 'coordinator', 'director');
    const hazard = draft.holdHazards.find((code) => !isHazard(code));
    if (hazard !== undefined)
      refuse('BAD_INPUT', `There is no hazard "${hazard}".`, { field: 'input.holdHazards' });
    for (const [field, least, most] of ranges) {
      const value = draft[field];
      if (value !== null && (value < least || value > most))
        refuse('BAD_INPUT', 'That is no weather.', {
          field: `input.${field}`,
          remedy: `${String(least)} to ${String(most)}.`,
        });
    }
    const holdReason =
      draft.holdReason === null
        ? null
        : wordsGiven(draft.holdReason, 'input.holdReason', 3, 500, 'Why work is stopped.');
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const before = await manager.findOneBy(DayWeatherEntity, { organisationId, heldOn: draft.heldOn });
      const row: DayWeatherEntity = {
        ...draft,
        holdReason,
        id: before?.id ?? newId('weather'),
        organisationId,
        writtenBy: caller.name,
      };
      await manager.save(DayWeatherEntity, row);
      // A hot day has rests in it, and is shorter for the plan.
      if (hasRest(row) || (before && hasRest(before)))
        await this.revisions.requestPlan(manager, organisationId, 'a day’s heat was written down');
      await this.audit.note(manager, caller, 'writeWeather', row.id, { on: row.heldOn, holdReason });
      return row;
    });
  }

  /** How loud it is at a tool, or at loud work by hand. */
  async writeLoudness(caller: Caller, toolId: string | null, dba: number, by: string): Promise<Loudness> {
    permit(caller, 'shipwright', 'coordinator');
    const name = wordsGiven(by, 'by', 2, 200, 'Who measured it, or where it comes from.');
    if (!Number.isInteger(dba) || dba < 40 || dba > 140)
      refuse('BAD_INPUT', 'That is no level of noise at work.', { field: 'dba', remedy: '40 to 140 dBA.' });
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      if (toolId !== null && !(await manager.findOneBy(Tool, { organisationId, id: toolId })))
        refuse('NOT_FOUND', 'There is no such tool.', { field: 'toolId' });
      const before = await manager.findOneBy(Loudness, { organisationId, toolId: toolId ?? IsNull() });
      const row: Loudness = {
        id: before?.id ?? newId('loudness'),
        organisationId,
        toolId,
        dba,
        measuredOn: await this.yardDay.today(organisationId, manager),
        by: name,
      };
      await manager.save(Loudness, row);
      await this.audit.note(manager, caller, 'writeLoudness', row.id, { toolId, dba });
      return row;
    });
  }

  async setProtectors(caller: Caller, rating: number | null): Promise<YardSafety> {
    permit(caller, 'shipwright', 'director');
    if (rating !== null && (!Number.isInteger(rating) || rating < 0 || rating > 40))
      refuse('BAD_INPUT', 'A noise reduction rating lies between 0 and 40 dB.', {
        field: 'rating',
        remedy: 'It stands on the box, as NRR.',
      });
    return this.change(caller, 'setProtectors', { protectorsRating: rating });
  }

  /** The organisation's own ages, with its reason; null puts the usual ones back. Plans are made anew. */
  async setAges(caller: Caller, ages: AgeTable | null, reason: string): Promise<YardSafety> {
    permit(caller, 'director');
    const agesReason = wordsGiven(
      reason,
      'reason',
      20,
      1000,
      'What counsel and insurer say, and who they are.',
    );
    const all = ages
      ? [ages.visitorsBelow, ages.inSightBelow, ages.teardownFrom, ...Object.values(ages.byHazard)]
      : [];
    if (all.some((age) => age === undefined || !Number.isInteger(age) || age < 0 || age > 99))
      refuse('BAD_INPUT', 'Ages are whole years.', { field: 'ages', remedy: '0 to 99.' });
    return this.change(
      caller,
      'setAges',
      ages ? { ages, agesReason, agesBy: caller.name } : { ages: null, agesReason, agesBy: caller.name },
    );
  }

  private change(caller: Caller, operation: string, changes: Partial<YardSafety>): Promise<YardSafety> {
    return this.database.write(async (manager) => {
      const { organisationId } = caller;
      const before = await manager.findOneBy(YardSafety, { organisationId });
      const empty = { protectorsRating: null, ages: null, agesReason: null, agesBy: null };
      const row: YardSafety = { id: newId('safety'), organisationId, ...empty, ...before, ...changes };
      await manager.save(YardSafety, row);
      await this.revisions.requestPlan(manager, organisationId, operation);
      await this.audit.note(manager, caller, operation, row.id, changes);
      return row;
    });
  }

  private async endOfTurnout(
    manager: EntityManager,
    organisationId: string,
    today: string,
    now: number,
  ): Promise<number> {
    const turnout = (await this.roster.turnouts(manager, organisationId)).find(
      ({ on, endsAt }) => on === today && endsAt > now,
    );
    return (
      turnout?.endsAt ??
      refuse('BAD_INPUT', 'This permit ends with the day’s turnout, and none is left today.', {
        field: 'kind',
        remedy: 'Look and measure on the day itself.',
      })
    );
  }

  private async endOfDay(manager: EntityManager, organisationId: string, day: string): Promise<number> {
    return dayBounds(await this.yardDay.zone(organisationId, manager)).endOf(day);
  }
}

const hasRest = ({ highFahrenheit }: DayWeatherEntity): boolean => heatRest(highFahrenheit, wholeDay) > 0;
const wholeDay = 1440;

const ranges = [
  ['highFahrenheit', -60, 140],
  ['lowFahrenheit', -60, 140],
  ['windMilesAnHour', 0, 200],
  ['airQualityIndex', 0, 1000],
] as const;

function lastDay(untilOn: string | null, today: string): string {
  const latest = addDays(today, longestPermitDays);
  if (untilOn === null || !isDay(untilOn) || untilOn < today || untilOn > latest)
    refuse('BAD_INPUT', 'A permit has a last day, at most a quarter of a year ahead.', {
      field: 'untilOn',
      remedy: `A day from ${today} to ${latest}.`,
    });
  return untilOn;
}
