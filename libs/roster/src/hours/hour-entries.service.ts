import { Audit, permit, type Caller } from '@ribband/access';
import { volunteerOf, YardDay } from '@ribband/crew';
import {
  addDays,
  Bus,
  Database,
  isDay,
  localToInstant,
  newId,
  RealClock,
  refuse,
  YardClock,
} from '@ribband/platform';
import { taskOf, wordsOf, wordsOrNull } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { noteArrival } from '../attendance/attendance.records.js';
import { tellRoster } from '../roster-news.js';
import { HourEntryEntity } from './hour-entry.entity.js';
import {
  entriesThatCount,
  kindFor,
  kindOf,
  periodOf,
  refuseClosedDay,
  refuseOverlap,
  yardNow,
  type YardNow,
} from './hour.records.js';
import { refuseLength, refuseToCome, turnoutAt, whose } from './sign-ons.service.js';

/** Hours of one person as they stand on paper. Times are local; an end before the start means the next morning. */
export interface PaperLine {
  volunteerId: string;
  taskId: string | null;
  on: string;
  from: string;
  to: string;
  kindId: string | null;
  note: string | null;
}

/** What an entry should have said. */
export interface RightHours {
  from: string;
  to: string;
  taskId: string | null;
  /** As before where it is null. */
  kindId: string | null;
}

const mostLines = 200;
const mostAdjusted = 24 * 60;

/** Hours that are entered afterwards, put right, or added to and taken from after their period was closed. */
@Injectable()
export class HourEntries {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
  ) {}

  /** Enters a sheet: all of its lines, or none and the first that is wrong by its field. */
  async enter(caller: Caller, lines: readonly PaperLine[]): Promise<HourEntryEntity[]> {
    permit(caller, 'director', 'coordinator');
    if (lines.length === 0 || lines.length > mostLines)
      refuse('BAD_INPUT', 'A sheet has lines.', {
        field: 'lines',
        remedy: `From 1 to ${mostLines} of them.`,
      });
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const yard = await yardNow(this.clock, this.yardDay, organisationId, manager);
      const entered: HourEntryEntity[] = [];
      for (const [index, line] of lines.entries())
        entered.push(await this.enterLine(manager, caller, line, `lines[${index}].`, yard));
      await this.audit.note(manager, caller, 'enterHours', null, { entries: entered.map(({ id }) => id) });
      tellRoster(this.bus, manager, organisationId, turnoutsOf(entered));
      return entered;
    });
  }

  private async enterLine(
    manager: EntityManager,
    caller: Caller,
    line: PaperLine,
    path: string,
    yard: YardNow,
  ): Promise<HourEntryEntity> {
    const { organisationId } = caller;
    const person = await volunteerOf(manager, organisationId, line.volunteerId, `${path}volunteerId`);
    if (line.taskId !== null) await taskOf(manager, organisationId, line.taskId, `${path}taskId`);
    const { startsAt, endsAt } = spanOf(line, yard, path);
    await refuseClosedDay(manager, organisationId, line.on, `${path}on`);
    const turnoutId = (await turnoutAt(manager, organisationId, startsAt))?.id ?? null;
    const at = { volunteerId: line.volunteerId, taskId: line.taskId, turnoutId };
    const kind =
      line.kindId === null
        ? await kindFor(manager, organisationId, at)
        : await kindOf(manager, organisationId, line.kindId, `${path}kindId`);
    const id = newId('hours');
    const entry: HourEntryEntity = {
      id,
      rootId: id,
      organisationId,
      ...at,
      kindId: kind.id,
      workedOn: line.on,
      startsAt,
      endsAt,
      minutes: Math.round((endsAt - startsAt) / 60_000),
      way: 'paper',
      note: wordsOrNull(line.note, `${path}note`, 500, 'The note'),
      enteredAt: this.realClock.now(),
      enteredBy: caller.name,
      endedBy: caller.name,
      isVoid: false,
      correctsId: null,
      adjustsId: null,
      reason: null,
    };
    await refuseOverlap(manager, entry, person.name, yard.zone, { field: `${path}from` });
    await manager.insert(HourEntryEntity, entry);
    if (turnoutId !== null) {
      const came = { turnoutId, volunteerId: line.volunteerId, arrivedAt: startsAt };
      await noteArrival(manager, { organisationId, ...came, how: 'paper', enteredBy: caller.name });
    }
    return entry;
  }

  /**
   * A new row takes the place of the old one, which stays on record with who corrected it and why.
   * @param right what it should have said; null to take the entry out
   */
  async correct(
    caller: Caller,
    entryId: string,
    right: RightHours | null,
    why: string,
  ): Promise<HourEntryEntity> {
    const reason = wordsOf(why, 'reason', 500, 'Why it was wrong');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const wrong = await this.entryThatCounts(manager, organisationId, entryId);
      whose(caller, wrong.volunteerId);
      if (wrong.way === 'adjustment')
        refuse('BAD_INPUT', 'An adjustment is put right by another adjustment.', {
          field: 'entryId',
          remedy: 'Adjust the same hours once more.',
        });
      await refuseClosedDay(manager, organisationId, wrong.workedOn, 'entryId');
      const yard = await yardNow(this.clock, this.yardDay, organisationId, manager);
      const entry: HourEntryEntity = {
        ...wrong,
        id: newId('hours'),
        enteredAt: this.realClock.now(),
        enteredBy: caller.name,
        correctsId: wrong.id,
        reason,
        ...(right === null
          ? { isVoid: true, minutes: wrong.minutes ?? 0 }
          : await this.rightOf(manager, wrong, right, yard, caller.name)),
      };
      if (right !== null) {
        const person = await volunteerOf(manager, organisationId, wrong.volunteerId);
        await refuseOverlap(manager, entry, person.name, yard.zone, { field: 'from', except: wrong.id });
      }
      await manager.insert(HourEntryEntity, entry);
      await this.audit.note(manager, caller, 'correctHours', entry.id, { corrects: wrong.id, reason });
      tellRoster(this.bus, manager, organisationId, turnoutsOf([entry]));
      return entry;
    });
  }

  /** Adds to closed hours, or takes from them: a row of its own, dated today. */
  async adjust(caller: Caller, entryId: string, minutes: number, why: string): Promise<HourEntryEntity> {
    permit(caller, 'director', 'coordinator');
    const reason = wordsOf(why, 'reason', 500, 'Why they were wrong');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const wrong = await this.entryThatCounts(manager, organisationId, entryId);
      if (!(await periodOf(manager, organisationId, wrong.workedOn)) || wrong.adjustsId !== null)
        refuse('BAD_INPUT', 'Only hours of a closed period are adjusted.', {
          field: 'entryId',
          remedy: 'Correct these where they stand; of an adjustment, adjust the hours that it is for.',
        });
      const others = await entriesThatCount(manager, organisationId)
        .andWhere('entry.adjustsId = :root', { root: wrong.rootId })
        .getMany();
      const sofar = others.reduce((sum, other) => sum + (other.minutes ?? 0), wrong.minutes ?? 0);
      if (!Number.isInteger(minutes) || minutes === 0 || minutes > mostAdjusted || sofar + minutes < 0)
        refuse('BAD_INPUT', `${minutes} minutes cannot be added to ${sofar}.`, {
          field: 'minutes',
          remedy: `Whole minutes from -${sofar} to ${mostAdjusted}, but not 0.`,
        });
      const { today } = await yardNow(this.clock, this.yardDay, organisationId, manager);
      await refuseClosedDay(manager, organisationId, today, 'entryId');
      const id = newId('hours');
      const entry: HourEntryEntity = {
        ...wrong,
        id,
        rootId: id,
        turnoutId: null,
        workedOn: today,
        startsAt: null,
        endsAt: null,
        minutes,
        way: 'adjustment',
        note: null,
        enteredAt: this.realClock.now(),
        enteredBy: caller.name,
        endedBy: null,
        correctsId: null,
        adjustsId: wrong.rootId,
        reason,
      };
      await manager.insert(HourEntryEntity, entry);
      await this.audit.note(manager, caller, 'adjustHours', id, { adjusts: wrong.rootId, minutes, reason });
      tellRoster(this.bus, manager, organisationId, []);
      return entry;
    });
  }

  private async rightOf(
    manager: EntityManager,
    wrong: HourEntryEntity,
    right: RightHours,
    yard: YardNow,
    by: string,
  ): Promise<Pick<HourEntryEntity, 'startsAt' | 'endsAt' | 'minutes' | 'taskId' | 'kindId' | 'endedBy'>> {
    const { organisationId, workedOn } = wrong;
    if (right.taskId !== null && right.taskId !== wrong.taskId)
      await taskOf(manager, organisationId, right.taskId, 'taskId');
    const { startsAt, endsAt } = spanOf({ on: workedOn, from: right.from, to: right.to }, yard, '');
    const kindId =
      right.kindId === null
        ? wrong.kindId
        : (await kindOf(manager, organisationId, right.kindId, 'kindId')).id;
    const minutes = Math.round((endsAt - startsAt) / 60_000);
    return { startsAt, endsAt, minutes, taskId: right.taskId, kindId, endedBy: by };
  }

  private async entryThatCounts(
    manager: EntityManager,
    organisationId: string,
    entryId: string,
  ): Promise<HourEntryEntity> {
    const entry = await manager.findOneBy(HourEntryEntity, { organisationId, id: entryId });
    if (!entry)
      return refuse('NOT_FOUND', 'There is no such entry.', {
        field: 'entryId',
        remedy: 'Read them again.',
      });
    const newer = await manager.findOneBy(HourEntryEntity, { correctsId: entryId });
    if (newer || entry.isVoid)
      refuse('CHANGED_MEANWHILE', 'This entry was corrected already.', {
        field: 'entryId',
        remedy: 'Read them again; correct the correction, if it is wrong.',
        ...(newer ? { facts: { 'corrected by': newer.enteredBy } } : {}),
      });
    return entry;
  }
}

const turnoutsOf = (entries: readonly HourEntryEntity[]): string[] => [
  ...new Set(entries.flatMap((entry) => entry.turnoutId ?? [])),
];

/** The instants of a day's local times. @throws RefusalError BAD_INPUT naming the field */
function spanOf(
  line: Pick<PaperLine, 'on' | 'from' | 'to'>,
  yard: YardNow,
  path: string,
): { startsAt: number; endsAt: number } {
  if (!isDay(line.on))
    refuse('BAD_INPUT', `"${line.on}" is not a day.`, {
      field: `${path}on`,
      remedy: 'A day such as 2027-04-03.',
    });
  const startsAt = localToInstant(line.on, line.from, yard.zone);
  const endsOn = line.to > line.from ? line.on : addDays(line.on, 1);
  const endsAt = localToInstant(endsOn, line.to, yard.zone);
  if (line.to === line.from)
    refuse('BAD_INPUT', `${line.from} to ${line.to} is no time at all.`, {
      field: `${path}to`,
      remedy: 'Say when it ended.',
    });
  refuseToCome(endsAt, yard, `${path}to`);
  refuseLength(startsAt, endsAt, yard.zone, `${path}to`);
  return { startsAt, endsAt };
}
