import { Audit, permitOwn, type Caller } from '@ribband/access';
import { volunteerOf } from '@ribband/crew';
import {
  addDays,
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
import type { Progress } from '../tasks/progress.js';
import type { Task } from '../tasks/task.entity.js';
import { liveTaskOf, taskOf } from '../tasks/task.records.js';
import { YardBoard } from '../tasks/yard-board.js';
import { followCorrection, followTally } from '../trays/follow-tally.js';
import {
  checkNumbers,
  refuseLongDay,
  refuseOutOfTurn,
  refuseTooMany,
  refuseUncounted,
} from './tally-faults.js';
import { TallyEntity } from './tally.entity.js';
import { TallyKey } from './tally-key.entity.js';

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
const longestNote = 2000;
const longestKey = 100;
/** Timber is sawn and jigs are made before she is out; a day longer before is a slip of the pen. */
const daysBefore = 366;

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
    @Inject(YardBoard) private readonly boards: YardBoard,
  ) {}

  /**
   * Staff enter what anybody did, volunteers what they did themselves; in their turn, so that what is left is left.
   * @param key the caller's own for this tally: sent again with it, the answer is the same and nothing is entered twice
   */
  async enter(caller: Caller, draft: TallyDraft, key: string | null = null): Promise<EnteredTally> {
    permitOwn(caller, whose(caller, draft) ?? '', ...staff);
    const { organisationId } = caller;
    if (key !== null && (key.trim() === '' || key.length > longestKey))
      refuse('BAD_INPUT', `A key has 1 to ${longestKey} characters.`, { field: 'key' });
    const keyId = key === null ? null : `${caller.accountId} ${key}`;
    return this.database.write(async (manager) => {
      const known = keyId === null ? null : await manager.findOneBy(TallyKey, { id: keyId });
      if (known) return sameTally(manager, caller, known.tallyId, draft);
      const { before, ...entered } = await this.put(manager, caller, draft);
      await followTally(manager, entered.task, entered.tally, handOf(caller));
      refuseTooMany(entered.task, before, draft.count ?? 0);
      if (keyId !== null)
        await manager.insert(TallyKey, { id: keyId, organisationId, tallyId: entered.tally.id });
      return entered;
    }, organisationId);
  }

  /** The same inside another use case, which sees itself to what goes with the tally, and to what is left. */
  async enterIn(manager: EntityManager, caller: Caller, draft: TallyDraft): Promise<EnteredTally> {
    const { task, tally } = await this.put(manager, caller, draft);
    return { task, tally };
  }

  /** @returns with how far the task had come before it */
  private async put(
    manager: EntityManager,
    caller: Caller,
    draft: TallyDraft,
  ): Promise<EnteredTally & { before: Progress | undefined }> {
    const volunteerId = whose(caller, draft);
    permitOwn(caller, volunteerId ?? '', ...staff);
    const { organisationId } = caller;
    const task = await liveTaskOf(manager, organisationId, draft.taskId, 'taskId');
    if (volunteerId !== null) await volunteerOf(manager, organisationId, volunteerId);
    refuseUncounted(task, draft.count, draft.minutes, draft.finished);
    const board = await this.boards.of(manager, organisationId);
    refuseOutOfTurn(caller, task, board);
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
    await refuseLongDay(manager, tally);
    await manager.insert(TallyEntity, tally);
    await this.changed(manager, caller, 'enterTally', task, tally);
    return { task, tally, before: board.progress.get(task.id) };
  }

  /** A new row takes the place of the old one, which stays on record. */
  async correct(caller: Caller, tallyId: string, right: RightTally): Promise<EnteredTally> {
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const { progress } = await this.boards.of(manager, organisationId);
      const wrong = await manager.findOneBy(TallyEntity, { organisationId, id: tallyId });
      const corrected = await this.correctIn(manager, caller, tallyId, right);
      const { task, tally } = corrected;
      refuseTooMany(task, progress.get(task.id), (tally.count ?? 0) - (wrong?.count ?? 0));
      const chain = await chainOf(manager, corrected.tally);
      await followCorrection(manager, corrected.tally, chain, handOf(caller));
      return corrected;
    }, organisationId);
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
    if (right.minutes > wrong.minutes) await refuseLongDay(manager, tally);
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
    const haulOut = await haulOutInForce(manager, organisationId);
    const today = instantToLocal(yardAt, haulOut?.timeZone ?? 'UTC').day;
    const earliest = addDays(haulOut?.hauledOutOn ?? today, -daysBefore);
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
    if (day < earliest && draft.turnoutId === null)
      refuse('BAD_INPUT', `${day} is more than a year before the haul-out.`, {
        field: 'on',
        remedy: `Choose a day from ${earliest} to ${today}.`,
      });
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

/** What a key was used for, asked again. @throws RefusalError where it was something else */
async function sameTally(
  manager: EntityManager,
  caller: Caller,
  id: string,
  draft: TallyDraft,
): Promise<EnteredTally> {
  const tally = await manager.findOneByOrFail(TallyEntity, { id });
  const { taskId, count, minutes, finished, turnoutId } = draft;
  const asked = { taskId, count, minutes, finished, turnoutId, volunteerId: whose(caller, draft) };
  const isSame = Object.entries(asked).every(([name, value]) => tally[name as keyof typeof asked] === value);
  if (!isSame || tally.note !== wordsOrNone(draft.note))
    refuse('BAD_INPUT', 'This key was used for something else.', {
      field: 'key',
      remedy: 'Use a new key for each tally.',
    });
  return { tally, task: await taskOf(manager, caller.organisationId, tally.taskId, 'taskId') };
}

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
