import { Audit, permit, type Caller } from '@ribband/access';
import { FamilyNews, volunteerOf, YardDay } from '@ribband/crew';
import { Bus, Database, newId, RealClock, refuse, YardClock } from '@ribband/platform';
import { haulOutInForce, taskOf, wordsOf, wordsOrNull } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { leftAlready, noteArrival } from '../attendance/attendance.records.js';
import { tellRoster } from '../roster-news.js';
import { HourEntryEntity } from './hour-entry.entity.js';
import { refuseLongAgo, whose } from './hour-rules.js';
import { correctionSaysLeft, sheetSaysLeft } from './left-after-all.js';
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
import { spanOf } from './paper-span.js';
import { turnoutAt } from './turnout-at.js';

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
    @Inject(FamilyNews) private readonly family: FamilyNews,
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
      const now = await yardNow(this.clock, this.yardDay, organisationId, manager);
      const hauledOutOn = (await haulOutInForce(manager, organisationId))?.hauledOutOn ?? null;
      const yard = { ...now, hauledOutOn };
      const entered: HourEntryEntity[] = [];
      const came: HourEntryEntity[] = [];
      for (const [index, line] of lines.entries()) {
        const { entry, isNew } = await this.enterLine(manager, caller, line, `lines[${index}].`, yard);
        entered.push(entry);
        if (isNew) came.push(entry);
      }
      for (const one of came) await this.tellFamily(manager, one, entered);
      const moved = await sheetSaysLeft(manager, this.family, entered);
      await this.audit.note(manager, caller, 'enterHours', null, {
        entries: entered.map(({ id }) => id),
        ...(moved.length > 0 ? { leftAt: moved } : {}),
      });
      tellRoster(this.bus, manager, organisationId, turnoutsOf(entered));
      return entered;
    });
  }

  private async enterLine(
    manager: EntityManager,
    caller: Caller,
    line: PaperLine,
    path: string,
    { hauledOutOn, ...yard }: YardNow & { hauledOutOn: string | null },
  ): Promise<{ entry: HourEntryEntity; isNew: boolean }> {
    const { organisationId } = caller;
    const person = await volunteerOf(manager, organisationId, line.volunteerId, `${path}volunteerId`);
    if (line.taskId !== null) await taskOf(manager, organisationId, line.taskId, `${path}taskId`);
    const { startsAt, endsAt } = spanOf(line, yard, path);
    refuseLongAgo(line.on, hauledOutOn, `${path}on`);
    await refuseClosedDay(manager, organisationId, line.on, `${path}on`);
    const turnoutId = (await turnoutAt(manager, organisationId, startsAt, line.volunteerId))?.id ?? null;
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
    const came = { organisationId, volunteerId: line.volunteerId, arrivedAt: startsAt };
    const isNew =
      turnoutId !== null &&
      // Who was accounted for is not there again: the sheet says when they left as well.
      !(await leftAlready(manager, turnoutId, line.volunteerId)) &&
      (await noteArrival(manager, { ...came, turnoutId, how: 'paper', enteredBy: caller.name }));
    return { entry, isNew };
  }

  /** A sheet may hold several lines of somebody at a turnout: they came with the first and left with the last. */
  private async tellFamily(
    manager: EntityManager,
    { organisationId, turnoutId, volunteerId }: HourEntryEntity,
    sheet: readonly HourEntryEntity[],
  ): Promise<void> {
    const own = sheet.filter((one) => one.turnoutId === turnoutId && one.volunteerId === volunteerId);
    const told = { volunteerId, key: turnoutId ?? '' };
    const came = Math.min(...own.flatMap(({ startsAt }) => startsAt ?? []));
    const left = Math.max(...own.flatMap(({ endsAt }) => endsAt ?? []));
    await this.family.tell(manager, organisationId, { ...told, what: 'came', at: came });
    await this.family.tell(manager, organisationId, { ...told, what: 'left', at: left });
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
      const leads = caller.role !== 'volunteer';
      const { moved, neverCame } = await correctionSaysLeft(manager, this.family, wrong, entry, leads);
      await this.audit.note(manager, caller, 'correctHours', entry.id, {
        ...{ corrects: wrong.id, reason },
        ...(moved.length > 0 ? { leftAt: moved } : {}),
        ...(neverCame ? { neverCame } : {}),
      });
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
