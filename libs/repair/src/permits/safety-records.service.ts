import { Audit, permit, type Caller } from '@ribband/access';
import { type AgeTable, heatRest, YardDay } from '@ribband/crew';
import { Database, newId, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull } from 'typeorm';
import { isHazard } from '../hazards/hazard-catalogue.js';
import { wordsGiven } from '../words.js';
import { Tool } from '../tools/tool.entity.js';
import { DayWeatherEntity } from './day-weather.entity.js';
import { Loudness } from './loudness.entity.js';
import { YardSafety } from './yard-safety.entity.js';

export type WeatherDraft = Omit<DayWeatherEntity, 'id' | 'organisationId' | 'writtenBy'>;

/** Weather, noise and what the organisation sets for itself, as people at the yard write them down. */
@Injectable()
export class SafetyRecords {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

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
    const { lowFahrenheit: low, highFahrenheit: high } = draft;
    if (low !== null && high !== null && low > high)
      refuse('BAD_INPUT', 'The low is above the high.', {
        field: 'input.lowFahrenheit',
        remedy: `${String(high)} or less, or correct the high.`,
      });
    const holdReason =
      draft.holdReason === null
        ? null
        : wordsGiven(draft.holdReason, 'input.holdReason', 3, 500, 'Why work is stopped.');
    if (holdReason === null && draft.holdHazards.length > 0)
      refuse('BAD_INPUT', 'Work with something is stopped for a reason.', {
        field: 'input.holdReason',
        remedy: 'Say why, 3 to 500 characters; or tick nothing, where work goes on.',
      });
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
}

const hasRest = ({ highFahrenheit }: DayWeatherEntity): boolean => heatRest(highFahrenheit, wholeDay) > 0;
const wholeDay = 1440;

const ranges = [
  ['highFahrenheit', -60, 140],
  ['lowFahrenheit', -60, 140],
  ['windMilesAnHour', 0, 200],
  ['airQualityIndex', 0, 1000],
] as const;
