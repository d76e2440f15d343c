import { Audit, permitOwn, type Caller } from '@ribband/access';
import { volunteerOf } from '@ribband/crew';
import {
  Database,
  instantToLocal,
  isDay,
  newId,
  RealClock,
  refuse,
  Revisions,
  YardClock,
} from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { RosterView } from '../roster-view/roster-view.js';
import type { Task } from '../tasks/task.entity.js';
import { liveTaskOf, taskOf } from '../tasks/task.records.js';
import { followCorrection, followTally } from '../trays/follow-tally.js';
import { TallyEntity } from './tally.entity.js';

export interface TallyDraft {
  taskId: string;
  volunteerId: string | null;
  turnoutId: string | null;
  /** Local day; where it is absent the turnout's day, else the yard's today. */
  on: string | null;
  count: number | null;
  minutes: number;
  finished: boolean;
  note: string | null;
}

/** What a tally should have said. */
export interface RightTally {
  count: number | null;
  minutes: number;
  /** As before where it is null. */
  finished: boolean | null;
  reason: string;
}

export interface EnteredTally {
  task: Task;
  tally: TallyEntity;
}

const staff = ['director', 'coordinator', 'shipwright'] as const;
const mostMinutes = 100_000;
const mostCount = 1_000_000;
const longestNote = 2000;

/** What got done. */
@Injectable()
export class Tallies {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(RosterView) private readonly roster: RosterView,
  ) {}

  /** Staff enter what anybody did, volunteers what they did themselves. */
  async enter(caller: Caller, draft: TallyDraft): Promise<EnteredTally> {
    permitOwn(caller, whose(caller, draft) ?? '', ...staff);
    return this.database.write(async (manager) => {
      const entered = await this.enterIn(manager, caller, draft);
      await followTally(manager, entered.task, entered.tally, handOf(caller));
      return entered;
    });
  }

  /** The same inside another use case, which sees itself to what goes with the tally. */
  async enterIn(manager: EntityManager, caller: Caller, draft: TallyDraft): Promise<EnteredTally> {
    const volunteerId = whose(caller, draft);
    permitOwn(caller, volunteerId ?? '', ...staff);
    const { organisationId } = caller;
    const task = await liveTaskOf(manager, organisationId, draft.taskId, 'taskId');
    if (volunteerId !== null) await volunteerOf(manager, organisationId, volunteerId);
    refuseUncounted(task, draft.count, draft.minutes, draft.finished);
    const note = wordsOrNone(draft.note);
    const yardAt = await this.yardClock.now(organisationId, manager);
    const tally: TallyEntity = {
      id: newId('tally'),
      organisationId,
      taskId: task.id,
      volunteerId,
      turnoutId: draft.turnoutId,
      workedOn: await this.dayOf(manager, organisationId, draft, yardAt),
      count: draft.count,
      minutes: draft.minutes,
      finished: draft.finished,
      note,
      yardAt,
      enteredAt: this.realClock.now(),
      enteredBy: caller.name,
      correctsId: null,
      reason: null,
    };
    await manager.insert(TallyEntity, tally);
    await this.changed(manager, caller, 'enterTally', task, tally);
    return { task, tally };
  }

  /** A new row takes the place of the old one, which stays on record. */
  async correct(caller: Caller, tallyId: string, right: RightTally): Promise<EnteredTally> {
    return this.database.write(async (manager) => {
      const corrected = await this.correctIn(manager, caller, tallyId, right);
      const chain = await chainOf(manager, corrected.tally);
      await followCorrection(manager, corrected.tally, chain, handOf(caller));
      return corrected;
    });
  }

  /** The same inside another use case, which sees itself to what goes with the tally. */
  async correctIn(
    manager: EntityManager,
    caller: Caller,
    tallyId: string,
    right: RightTally,
  ): Promise<EnteredTally> {
    const { organisationId } = caller;
    const reason = right.reason.trim();
    if (reason === '' || reason.length > 500)
      refuse('BAD_INPUT', 'A correction says why.', {
        field: 'reason',
        remedy: 'Say it in 1 to 500 characters.',
      });
    const wrong = await manager.findOneBy(TallyEntity, { organisationId, id: tallyId });
    if (!wrong)
      return refuse('NOT_FOUND', 'There is no such tally.', {
        field: 'tallyId',
        remedy: 'Read them again.',
      });
    permitOwn(caller, wrong.volunteerId ?? '', ...staff);
    const newer = await manager.findOneBy(TallyEntity, { correctsId: tallyId });
    if (newer)
      refuse('CHANGED_MEANWHILE', 'This tally was corrected already.', {
        field: 'tallyId',
        remedy: 'Correct the correction, if it is wrong.',
        facts: { 'corrected by': newer.enteredBy, correction: newer.id },
      });
    const task = await taskOf(manager, organisationId, wrong.taskId, 'tallyId');
    const finished = right.finished ?? wrong.finished;
    checkNumbers(task, right.count, right.minutes);
    const tally: TallyEntity = {
      ...wrong,
      id: newId('tally'),
      count: right.count,
      minutes: right.minutes,
      finished,
      enteredAt: this.realClock.now(),
      enteredBy: caller.name,
      correctsId: wrong.id,
      reason,
    };
    await manager.insert(TallyEntity, tally);
    await this.changed(manager, caller, 'correctTally', task, tally);
    return { task, tally };
  }

  private async dayOf(
    manager: EntityManager,
    organisationId: string,
    draft: TallyDraft,
    yardAt: number,
  ): Promise<string> {
    if (draft.on !== null && !isDay(draft.on))
      refuse('BAD_INPUT', `"${draft.on}" is not a day.`, {
        field: 'on',
        remedy: 'A day such as 2027-04-03.',
      });
    const zone = (await haulOutInForce(manager, organisationId))?.timeZone ?? 'UTC';
    const today = instantToLocal(yardAt, zone).day;
    let day = draft.on ?? today;
    if (draft.turnoutId !== null) {
      const turnouts = await this.roster.turnouts(manager, organisationId);
      const turnout = turnouts.find((one) => one.id === draft.turnoutId);
      if (!turnout)
        return refuse('NOT_FOUND', 'There is no such turnout.', {
          field: 'turnoutId',
          remedy: 'Choose one of the yard’s turnouts, or none.',
        });
      day = turnout.on;
    }
    if (day > today)
      refuse('BAD_INPUT', `${day} is still to come.`, {
        field: draft.turnoutId === null ? 'on' : 'turnoutId',
        remedy: `Choose ${today} or an earlier day.`,
      });
    return day;
  }

  private async changed(
    manager: EntityManager,
    caller: Caller,
    operation: string,
    task: Task,
    tally: TallyEntity,
  ): Promise<void> {
    await this.revisions.requestPlan(manager, caller.organisationId, `${operation}: ${task.title}`);
    await this.audit.note(manager, caller, operation, tally.id, {
      task: task.id,
      count: tally.count,
      minutes: tally.minutes,
      finished: tally.finished,
      ...(tally.reason === null ? {} : { reason: tally.reason }),
    });
  }
}

/** Whose work a tally is: volunteers enter their own; null when it was several. */
const whose = (caller: Caller, draft: TallyDraft): string | null =>
  draft.volunteerId ?? (caller.role === 'volunteer' ? caller.volunteerId : null);

const handOf = ({ name, accountId }: Caller) => ({ enteredBy: name, accountId });

/** A tally and all those that it corrects, newest first. */
async function chainOf(manager: EntityManager, newest: TallyEntity): Promise<string[]> {
  const chain = [newest.id];
  for (let id = newest.correctsId; id !== null;) {
    chain.push(id);
    id = (await manager.findOneByOrFail(TallyEntity, { id })).correctsId;
  }
  return chain;
}

/** A remark as it is kept: nothing but blanks is none. @throws RefusalError when it is too long */
export function wordsOrNone(note: string | null): string | null {
  const words = note?.trim() ?? '';
  if (words.length > longestNote)
    refuse('BAD_INPUT', 'The note is too long.', {
      field: 'note',
      remedy: `At most ${longestNote} characters.`,
    });
  return words === '' ? null : words;
}

function checkNumbers(task: Task, count: number | null, minutes: number): void {
  if (count !== null && count < 0)
    refuse('NEGATIVE_COUNT', `${count} is below zero.`, {
      field: 'count',
      remedy: 'How many were done, 0 or more; to take some off, correct the tally that was too high.',
    });
  if (count !== null && task.estimateBy !== 'count')
    refuse('BAD_INPUT', `On "${task.title}" nothing is counted.`, {
      field: 'count',
      remedy: 'Leave the count out.',
    });
  if (count !== null && (!Number.isInteger(count) || count > mostCount))
    refuse('BAD_INPUT', `${count} is no count.`, {
      field: 'count',
      remedy: `A whole number up to ${mostCount}.`,
    });
  if (!Number.isInteger(minutes) || minutes < 0 || minutes > mostMinutes)
    refuse('BAD_INPUT', `${minutes} are no person-minutes.`, {
      field: 'minutes',
      remedy: `Whole minutes from 0 to ${mostMinutes}, those of all hands together.`,
    });
}

function refuseUncounted(task: Task, count: number | null, minutes: number, finished: boolean): void {
  if (task.kind === 'hold' || task.kind === 'launch')
    refuse('TASK_NOT_READY', `"${task.title}" is a say-so and has no tally.`, {
      field: 'taskId',
      remedy: 'The shipwright passes it.',
    });
  checkNumbers(task, count, minutes);
  if (!finished && minutes === 0 && (count ?? 0) === 0)
    refuse('BAD_INPUT', 'This tally says that nothing was done.', {
      field: 'minutes',
      remedy: 'Enter the minutes, the count, or that it is finished.',
    });
}
