import { Audit, type Caller, permit } from '@ribband/access';
import {
  addDays,
  Database,
  RealClock,
  refuse,
  type Refusal,
  RefusalError,
  YardClock,
} from '@ribband/platform';
import { Task, Tasks, Tools } from '@ribband/repair';
import { TurnoutEntity, Turnouts } from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull, MoreThan } from 'typeorm';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { staffRoles } from '../plans/plans.service.js';
import type { ToldPlan } from '../plans/told-plan.js';
import { listOf, weekdayNames } from '../words/days.js';
import { refuseToLeaveOut } from './refuse-unsound.js';
import { furtherTurnouts, type Supposed } from './supposed.js';
import { byHandWords, namesOf, supposedWords } from './supposed-words.js';
import { type AppliedChange, WhatIfEntity } from './what-if.entity.js';

const dayCodes = ['MO', 'TU', 'WE', 'TH', 'FR', 'SA', 'SU'] as const;
const mostNamed = 8;

/** What became of a change or of a part of it: why it was refused, the error where it went wrong. */
type Came = Omit<AppliedChange, 'words'> & { refusals?: Refusal[]; fault?: { error: unknown } };

/** Does in earnest what was thought of, through the services that people use; what nobody can enter, it says. */
@Injectable()
export class ApplyWhatIf {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(Tasks) private readonly tasks: Tasks,
    @Inject(Turnouts) private readonly turnouts: Turnouts,
    @Inject(Tools) private readonly tools: Tools,
  ) {}

  /**
   * Each task, tool and turnout rule is one write or none; what is refused leaves the others standing, and is told with
   * its reason. After a fault nothing further is tried; what was entered until then is kept and told all the same.
   * @throws RefusalError PLAN_OUTDATED where the plan has moved on since it was reckoned; with the code of what was
   *   refused where nothing could be entered, and then it can still be applied
   */
  async apply(caller: Caller, id: string): Promise<WhatIfEntity> {
    permit(caller, ...staffRoles);
    const { organisationId } = caller;
    const at = this.realClock.now();
    const claim = { by: caller.name, at, changes: [] };
    // Two who press at once: one of them does it.
    const { row, told } = await this.database.write(async (manager) => {
      const found = await manager.findOneBy(WhatIfEntity, { organisationId, id });
      if (!found) return refuse('NOT_FOUND', 'There is no such what-if.', { field: 'id' });
      if (found.applied)
        return refuse('ALREADY_EXISTS', `${found.applied.by} has applied this already.`, {
          field: 'id',
          remedy: 'Look at what came of it.',
        });
      if (found.state !== 'done' || !found.result)
        return refuse('TASK_NOT_READY', 'It is not known yet what this would do.', {
          field: 'id',
          remedy: 'Apply what has been reckoned.',
        });
      if (found.changes.every((change) => byHandWords(change) !== null))
        return refuse('BAD_INPUT', 'Nothing of this can be entered: it is for people to do.', {
          field: 'id',
          remedy: [...new Set(found.changes.map(byHandWords))].join(' '),
        });
      const inForce = await this.shelf.inForce(organisationId, manager);
      if (inForce?.entity.id !== found.result.planId || !(await this.shelf.isNewest(inForce, manager)))
        return refuse('PLAN_OUTDATED', 'The plan has moved on since this was reckoned.', {
          field: 'id',
          remedy: 'Reckon it again, and look whether it still helps.',
        });
      await manager.update(WhatIfEntity, { id }, { applied: claim });
      return { row: found, told: inForce };
    });
    const names = await namesOf(this.database.read, organisationId, row.changes);
    const all: Came[] = [];
    for (const change of row.changes)
      all.push(faultIn(all) ? notTried : await this.try(() => this.one(caller, row, told, change)));
    const changes = all.map(({ isDone, instead }, i): AppliedChange => {
      const change = row.changes[i];
      return { words: change ? supposedWords(change, names, told.days) : '', isDone, instead };
    });
    const fault = faultIn(all);
    const refusals = all.flatMap((came) => came.refusals ?? []);
    const isDone = all.some((came) => came.isDone);
    // What was refused to one may be somebody else's to do: it can still be applied.
    const applied = isDone ? { ...claim, changes } : null;
    await this.database.write(async (manager) => {
      await manager.update(WhatIfEntity, { id }, { applied });
      const facts = { changes, words: `“${row.name}” was applied`, since: at };
      if (applied) await this.audit.note(manager, caller, 'applyWhatIf', id, facts);
    });
    if (fault) throw fault.error;
    const [first] = refusals;
    if (!applied && first) {
      const byHand = all.flatMap((came) => (came.refusals ? [] : (came.instead ?? [])));
      refuse(first.code, `Nothing was entered. ${together(refusals.map(({ message }) => message))}`, {
        field: 'id',
        remedy: together([...refusals.flatMap(({ remedy }) => remedy ?? []), ...byHand]),
      });
    }
    return { ...row, applied };
  }

  private async try(act: () => Promise<Came>): Promise<Came> {
    try {
      return await act();
    } catch (error) {
      if (!(error instanceof RefusalError)) return { ...wentWrong, fault: { error } };
      const { refusal } = error;
      const { message, remedy } = refusal;
      return { isDone: false, instead: [message, remedy].filter(Boolean).join(' '), refusals: [refusal] };
    }
  }

  private async one(caller: Caller, { name }: WhatIfEntity, told: ToldPlan, change: Supposed): Promise<Came> {
    switch (change.kind) {
      case 'drop':
        return this.drop(caller, change.taskIds, `What if: ${name}`);
      case 'late':
        return this.moveDay(caller, change.taskIds, change.days);
      case 'sooner':
        return this.moveDay(caller, change.taskIds, -change.days);
      case 'turnouts':
        return this.addTurnouts(caller, told, change);
      case 'tool':
        await this.tools.addMore(caller, change.toolId, change.more);
        return done;
      case 'recruit':
      case 'train':
        return { isDone: false, instead: byHandWords(change) };
    }
  }

  private async drop(caller: Caller, ids: string[], reason: string): Promise<Came> {
    const all = await this.each(caller, ids, (task) => {
      refuseToLeaveOut(task, 'taskIds');
      return this.tasks.drop(caller, task.id, task.version, reason);
    });
    return inAll(all, 'What came after it now waits for what came before; the shipwright checks.');
  }

  /** Moves the days before which work can't begin. A day that the timber book gives is changed there. */
  private async moveDay(caller: Caller, ids: string[], days: number): Promise<Came> {
    const all = await this.each(caller, ids, ({ id, version, title, notBefore }) =>
      notBefore === null
        ? refuse('BAD_INPUT', `“${title}” has no day that it waits for.`, {
            remedy: 'Where it waits for wood, change the promised day in the timber book.',
          })
        : this.tasks.edit(caller, id, version, { notBefore: addDays(notBefore, days) }),
    );
    const onPaper = 'So far that is a day on paper: ask whoever it comes from, and set it back after a no.';
    return inAll(all, days < 0 ? onPaper : null);
  }

  /** One write for each task. @returns what became of each */
  private async each(
    { organisationId }: Caller,
    ids: string[],
    act: (task: Task) => Promise<unknown>,
  ): Promise<Came[]> {
    const all: Came[] = [];
    for (const id of ids) {
      const one = async () => {
        const task = await this.database.read.findOneBy(Task, { organisationId, id });
        await act(task ?? refuse('NOT_FOUND', 'There is no such task any more.', { field: 'taskIds' }));
        return done;
      };
      all.push(faultIn(all) ? notTried : await this.try(one));
    }
    return all;
  }

  private async addTurnouts(
    caller: Caller,
    told: ToldPlan,
    { weekday, fromOn, untilOn }: Extract<Supposed, { kind: 'turnouts' }>,
  ): Promise<Came> {
    const { organisationId } = caller;
    const usual = await this.database.read.findOne(TurnoutEntity, {
      where: {
        organisationId,
        kind: IsNull(),
        cancelledAt: IsNull(),
        startsAt: MoreThan(await this.clock.now(organisationId)),
      },
      order: { startsAt: 'ASC' },
    });
    if (!usual)
      return refuse('NOT_FOUND', 'There is no turnout whose hours could be taken.', {
        remedy: 'Add them by hand.',
      });
    await this.turnouts.setRule(caller, {
      rule: `FREQ=WEEKLY;BYDAY=${dayCodes[weekday - 1] ?? 'SU'}`,
      startsOn: fromOn,
      untilOn,
      startTime: usual.startTime,
      endTime: usual.endTime,
    });
    const { people } = furtherTurnouts(told, weekday, fromOn, untilOn);
    const named = people.slice(0, mostNamed).map((p) => told.problem.people[p]?.name ?? '');
    const more = people.length - named.length;
    const who = more > 0 ? `${named.join(', ')} and ${String(more)} more` : listOf(named);
    return {
      ...done,
      instead: `Nobody has said yet that they come on ${weekdayNames[weekday - 1] ?? ''}. The answer counts on ${who}: ask them.`,
    };
  }
}

/** What came of a change of several tasks. */
function inAll(all: readonly Came[], afterwards: string | null): Came {
  const not = all.filter(({ isDone }) => !isDone);
  if (not.length === 0) return { ...done, instead: afterwards };
  const some = not.length < all.length;
  const why = whyNot(not);
  return {
    ...not.find(({ fault }) => fault),
    refusals: not.flatMap(({ refusals }) => refusals ?? []),
    isDone: some,
    instead: some ? `Not for ${String(not.length)} of ${String(all.length)}: ${why}` : why,
  };
}

const whyNot = (all: readonly Came[]): string => together(all.flatMap(({ instead }) => instead ?? []));

/** Each sentence once. */
const together = (sentences: readonly string[]): string =>
  [...new Set(sentences)].slice(0, mostNamed).join(' ');

const faultIn = (all: readonly Came[]): { error: unknown } | undefined =>
  all.find(({ fault }) => fault)?.fault;

const done: Came = { isDone: true, instead: null };
const wentWrong: Came = {
  isDone: false,
  instead: 'Something went wrong at the server: look whether it stands before you enter it by hand.',
};
const notTried: Came = { isDone: false, instead: 'Not tried, as something went wrong before it.' };
