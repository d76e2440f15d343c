import { Audit, type Caller } from '@ribband/access';
import { Database, instantToLocal, newId, RealClock, refuse, Revisions, YardClock } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { hazardsOf } from '../hazards/cautions.js';
import { fireWatchMinutes } from '../hazards/fire-watch.js';
import { HullDay } from '../openings/hull-today.js';
import { refuseUnseen } from '../openings/opening-stops.js';
import type { Progress } from '../tasks/progress.js';
import type { Task } from '../tasks/task.entity.js';
import { liveTaskOf } from '../tasks/task.records.js';
import { followSendBack } from '../trays/follow-tally.js';
import { YardBoard, type Board } from '../tasks/yard-board.js';
import { refuseWithoutAuthority } from './authority.js';
import { SaySo } from './say-so.entity.js';
import { wordsOrNone } from './tallies.service.js';

/** What the shipwright, or whoever may say so instead, says about work. */
@Injectable()
export class SaySos {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardClock) private readonly yardClock: YardClock,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(YardBoard) private readonly boards: YardBoard,
    @Inject(HullDay) private readonly days: HullDay,
  ) {}

  /** Says that a task is good: work that was shown, a hold whose time has come, time or a delivery that is over. */
  async pass(caller: Caller, taskId: string, note: string | null): Promise<Task> {
    return this.database.write(async (manager) => {
      const task = await liveTaskOf(manager, caller.organisationId, taskId, 'taskId');
      const by = await this.inWhoseName(manager, caller, task);
      const board = await this.boards.of(manager, caller.organisationId);
      refuseUnlessReady(task, board);
      refuseUnseen(task, await this.days.of(manager, caller.organisationId, board));
      await this.say(manager, caller, by, task, {
        verdict: 'passed',
        note: wordsOrNone(note),
        countBack: 0,
        minutesBack: 0,
      });
      return task;
    });
  }

  /** Sends work back: so many pieces, or so many person-minutes, are to be done again. */
  async sendBack(
    caller: Caller,
    taskId: string,
    back: { count: number | null; minutes: number | null; reason: string },
  ): Promise<Task> {
    const reason = back.reason.trim();
    if (reason === '' || reason.length > 500)
      refuse('BAD_INPUT', 'Who does it again will want to know why.', {
        field: 'reason',
        remedy: 'Say it in 1 to 500 characters.',
      });
    return this.database.write(async (manager) => {
      const task = await liveTaskOf(manager, caller.organisationId, taskId, 'taskId');
      const by = await this.inWhoseName(manager, caller, task);
      const board = await this.boards.of(manager, caller.organisationId);
      const progress = board.progress.get(taskId) as Progress;
      if (progress.stage === 'not begun')
        refuse('TASK_NOT_READY', `"${task.title}" has not begun: there is nothing to send back.`, {
          field: 'taskId',
          remedy: 'Hold it instead, if it must not begin.',
        });
      const sent = amountBack(task, progress, back);
      await this.say(manager, caller, by, task, { verdict: 'sent-back', note: reason, ...sent });
      if (sent.countBack > 0)
        await followSendBack(
          manager,
          task,
          { count: sent.countBack, reason, yardAt: board.now, enteredAt: this.realClock.now() },
          { enteredBy: caller.name, accountId: caller.accountId },
        );
      return task;
    });
  }

  /** @throws RefusalError NOT_PERMITTED */
  private async inWhoseName(manager: EntityManager, caller: Caller, task: Task): Promise<string> {
    const now = await this.yardClock.now(caller.organisationId, manager);
    const zone = (await haulOutInForce(manager, caller.organisationId))?.timeZone ?? 'UTC';
    return refuseWithoutAuthority(manager, caller, task, instantToLocal(now, zone).day);
  }

  private async say(
    manager: EntityManager,
    caller: Caller,
    by: string,
    task: Task,
    said: Pick<SaySo, 'verdict' | 'note' | 'countBack' | 'minutesBack'>,
  ): Promise<void> {
    const { organisationId } = caller;
    await manager.insert(SaySo, {
      id: newId('sayso'),
      organisationId,
      taskId: task.id,
      saidBy: by,
      yardAt: await this.yardClock.now(organisationId, manager),
      saidAt: this.realClock.now(),
      ...said,
    });
    const operation = said.verdict === 'passed' ? 'passTask' : 'sendTaskBack';
    await this.revisions.requestPlan(manager, organisationId, `${operation}: ${task.title}`);
    await this.audit.note(manager, caller, operation, task.id, {
      ...said,
      ...(by === caller.name ? {} : { by }),
    });
  }
}

function refuseUnlessReady(task: Task, board: Board): void {
  const state = board.standing.get(task.id)?.state;
  const no = (message: string, remedy: string): never =>
    refuse('TASK_NOT_READY', message, { field: 'taskId', remedy });
  if (state === 'passed' && board.progress.get(task.id)?.stage === 'passed')
    no(`"${task.title}" is passed already.`, 'Send it back if it must be done again.');
  if (state === 'held') no(`"${task.title}" is held: ${task.held ?? ''}.`, 'Take the hold off first.');
  const needsShowing = task.kind === 'work' || task.kind === 'fixed';
  if (needsShowing && state !== 'shown')
    no(
      `Nobody has said that "${task.title}" is finished.`,
      'Enter a tally with "finished", then look at it.',
    );
  if ((task.kind === 'hold' || task.kind === 'launch') && state === 'waiting')
    no(`What stands before "${task.title}" is not done yet.`, 'Look at what it waits for.');
  const doneAt = board.progress.get(task.id)?.doneAt ?? null;
  if (doneAt === null || !hazardsOf(task).includes('hot-work')) return;
  const watchedUntil = doneAt + fireWatchMinutes * 60_000;
  if (board.now < watchedUntil) {
    const { day, time } = instantToLocal(watchedUntil, board.timeZone);
    no(
      `The fire watch stays ${fireWatchMinutes} minutes after the last spark, until ${time} on ${day}.`,
      'Look again after that, and pass it then.',
    );
  }
}

function amountBack(
  task: Task,
  progress: Progress,
  back: { count: number | null; minutes: number | null },
): { countBack: number; minutesBack: number } {
  if (task.estimateBy === 'count') {
    const done = progress.countLeft === 0 ? (task.count ?? 0) : progress.countDone;
    const { count } = back;
    if (count !== null && count < 0)
      refuse('NEGATIVE_COUNT', `${count} is below zero.`, {
        field: 'countBack',
        remedy: `From 1 to ${done}.`,
      });
    if (count === null || !Number.isInteger(count) || count < 1 || count > done)
      return refuse('BAD_INPUT', `How many ${task.unit ?? 'pieces'} go back?`, {
        field: 'countBack',
        remedy: `A whole number from 1 to ${done}, as many as are done.`,
      });
    return { countBack: count, minutesBack: 0 };
  }
  if (back.count !== null)
    refuse('BAD_INPUT', `On "${task.title}" nothing is counted.`, {
      field: 'countBack',
      remedy: 'Say in minutesBack how much work is to be done again.',
    });
  if (task.kind !== 'work') return { countBack: 0, minutesBack: 0 };
  const { minutes } = back;
  if (minutes === null || !Number.isInteger(minutes) || minutes < 1 || minutes > 100_000)
    return refuse('BAD_INPUT', 'How much work is to be done again?', {
      field: 'minutesBack',
      remedy: 'Person-minutes from 1 to 100000.',
    });
  return { countBack: 0, minutesBack: minutes };
}
