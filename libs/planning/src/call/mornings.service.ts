import { type Caller, permit } from '@ribband/access';
import type { NamedHand } from '@ribband/crew';
import { Database, refuse } from '@ribband/platform';
import {
  type CalledSeat,
  CallGates,
  Calling,
  type CallRules,
  closedWords,
  learnersWithoutTeacher,
  type Lost,
  PlaceEntity,
  type StopOverride,
  type TurnoutEntity,
} from '@ribband/roster';
import { Inject, Injectable } from '@nestjs/common';
import { Not, type EntityManager } from 'typeorm';
import { Expected } from '../compute/expected.js';
import { YardLoader } from '../compute/load-yard.js';
import { warmPlan } from '../compute/warm-plan.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { type BuiltProblem, buildProblem } from '../problem/build-problem.js';
import type { Allowed, CallInput, Present } from './call-shapes.js';
import { callTurnout, type CallOutcome } from './call-turnout.js';
import { fallenSentence } from './call-words.js';
import { heldSeats } from './held-seats.js';

/** How somebody came to a seat of the morning. */
export type SeatedHow = 'as posted' | 'moved' | 'walked in';

export interface MorningSeat extends CalledSeat {
  how: SeatedHow;
}

/** A morning as it would be called now. Nothing of it is kept. */
export interface Morning {
  turnout: TurnoutEntity;
  /** Version of the last call of this turnout; 0 where there was none. */
  version: number;
  seats: MorningSeat[];
  fallen: { taskId: string; why: string }[];
  /** Who came and has no work. */
  idle: NamedHand[];
  /** Learners who are here and whose teacher is not on the work, in sentences. */
  learners: string[];
  rules: CallRules;
  names: ReadonlyMap<string, string>;
  /** Epoch milliseconds; null where nothing can be planned. */
  readyAt: number | null;
}

/** Times that the engine is asked again after a gate has said no; after the last one who is stopped has no seat. */
const mostRounds = 5;
/** Beyond this many tasks only the plan's own order is tried, so that nobody waits. */
const manyTasks = 1_000;

/** Works out the best permitted set of work for exactly those who came. */
@Injectable()
export class Mornings {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardLoader) private readonly yard: YardLoader,
    @Inject(Expected) private readonly expected: Expected,
    @Inject(PlanShelf) private readonly shelf: PlanShelf,
    @Inject(Calling) private readonly calling: Calling,
    @Inject(CallGates) private readonly gates: CallGates,
  ) {}

  async propose(caller: Caller, turnoutId: string, named: readonly string[]): Promise<Morning> {
    permit(caller, 'coordinator', 'director', 'shipwright');
    const presentIds = [...new Set(named)];
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const turnout = await this.calling.callable(manager, organisationId, turnoutId);
      const loaded = await this.yard.load(manager, organisationId);
      if (!loaded) return refuse('NO_PLAN', 'There is no haul-out yet.', { remedy: 'Import a yard first.' });
      const old = await this.shelf.inForce(organisationId, manager);
      const yard = await this.expected.at(loaded);
      const built = buildProblem(yard);
      const { problem, epochAt } = built;
      const posted = await manager.findBy(PlaceEntity, { turnoutId, state: Not('left') });
      const warm = old?.plan ? warmPlan({ input: old.input, plan: old.plan }, problem, epochAt) : null;
      const called =
        turnout.kind === null
          ? await this.throughTheGates(
              manager,
              built,
              turnout,
              { ...callInput(built, turnout, presentIds, posted), warm },
              posted,
            )
          : await this.asPosted(manager, turnout, presentIds, posted);
      const last = await this.calling.newest(turnoutId, manager);
      const names = new Map(problem.people.map(({ id, name }) => [id, name]));
      const learning = posted.filter(({ teacherId }) => teacherId !== null);
      return {
        ...called,
        turnout,
        learners: await learnersWithoutTeacher(manager, learning, called.seats, presentIds),
        version: last?.version ?? 0,
        names,
        seats: called.seats.map((seat) => ({ ...seat, how: howSeated(seat, posted) })),
        idle: presentIds
          .filter((id) => !called.seats.some((seat) => seat.volunteerId === id))
          .map((id) => ({ volunteerId: id, name: names.get(id) ?? '' })),
      };
    });
  }

  /** A watch or an all-hands day, of which the plan knows nothing: whoever came is where they are posted. */
  private async asPosted(
    manager: EntityManager,
    turnout: TurnoutEntity,
    presentIds: readonly string[],
    places: readonly PlaceEntity[],
  ): Promise<Pick<Morning, 'fallen' | 'rules' | 'readyAt'> & { seats: CalledSeat[] }> {
    const wanted = places.flatMap(
      ({
        turnoutId,
        taskId,
        volunteerId,
        skillId,
        level,
        role,
        cardKindId,
        startsAt,
        endsAt,
      }): CalledSeat[] =>
        volunteerId !== null && presentIds.includes(volunteerId)
          ? [{ turnoutId, taskId, volunteerId, skillId, level, role, cardKindId, startsAt, endsAt }]
          : [],
    );
    const { kept, lost, rules } = await this.gates.settle(manager, turnout, wanted, presentIds);
    const on = new Set(kept.map(({ taskId }) => taskId));
    const fallen = [...new Set(places.map(({ taskId }) => taskId))].filter((taskId) => !on.has(taskId));
    return {
      seats: kept,
      rules,
      readyAt: null,
      fallen: fallen.map((taskId) => {
        const why = lost.find(({ seat }) => seat.taskId === taskId);
        return { taskId, why: why ? saidOf(why) : 'Nobody came who is posted to it.' };
      }),
    };
  }

  /** The engine proposes, the gates answer, until nobody is stopped. */
  private async throughTheGates(
    manager: EntityManager,
    built: BuiltProblem,
    turnout: TurnoutEntity,
    input: CallInput,
    places: readonly PlaceEntity[],
  ): Promise<Pick<Morning, 'fallen' | 'rules' | 'readyAt'> & { seats: CalledSeat[] }> {
    const { problem, epochAt } = built;
    const idOf = (task: number) => problem.tasks[task]?.id ?? '';
    const numbers = numbersOf(built);
    const presentIds = input.present.map(({ person }) => problem.people[person]?.id ?? '');
    const spans = places.filter(({ taskId }) => numbers.task.has(taskId));
    const posted = await this.gates.rules(manager, turnout, presentIds, spans);
    const allowed = allowedBy(posted.overrides, numbers);
    const words = new Map<number, string>();
    for (const task of input.postedTasks) {
      const id = idOf(task);
      const closed = posted.book.job(id)?.closed ?? closedWords(posted.stops.get(id));
      if (closed !== undefined) words.set(task, closed);
    }
    const barred: { person: number; task: number }[] = [];
    const shut = new Set(words.keys());
    for (let round = 1; ; round += 1) {
      const outcome = callTurnout({ ...input, allowed, barred, closed: [...shut] });
      const wanted = heldSeats(built, turnout, outcome);
      const { kept, lost, rules } = await this.gates.settle(manager, turnout, wanted, presentIds);
      if (lost.length > 0 && round < mostRounds && outcome.kind === 'called') {
        learn(lost, numbers, { barred, shut, words });
        continue;
      }
      const on = new Set(kept.map(({ taskId }) => taskId));
      return {
        seats: kept,
        rules,
        readyAt: outcome.kind === 'called' ? epochAt + outcome.ready * 60_000 : null,
        fallen: input.postedTasks
          .filter((task) => !on.has(idOf(task)))
          .map((task) => ({ taskId: idOf(task), why: whyOf(built, outcome, task, words) })),
      };
    }
  }
}

function callInput(
  { problem, epochAt }: BuiltProblem,
  turnout: TurnoutEntity,
  presentIds: readonly string[],
  posted: readonly PlaceEntity[],
): Omit<CallInput, 'warm'> {
  const at = problem.turnouts.findIndex(({ id }) => id === turnout.id);
  const times = problem.turnouts[at];
  const from = times ? Math.max(times.start, problem.now) : 0;
  if (!times || from >= times.end)
    return refuse('TURNOUT_OVER', 'This turnout is over.', {
      field: 'turnoutId',
      remedy: 'Who came can still be entered; work is not given out any more.',
      facts: { ended: new Date(epochAt + (times?.end ?? 0) * 60_000).toISOString() },
    });
  const person = new Map(problem.people.map(({ id }, i) => [id, i]));
  const task = new Map(problem.tasks.map(({ id }, i) => [id, i]));
  return {
    problem,
    turnout: at,
    present: presentIds.map((id): Present => {
      const index = person.get(id);
      if (index === undefined)
        return refuse('NOT_FOUND', 'There is no such person in the crew.', { field: 'presentIds' });
      return { person: index, from, to: times.end };
    }),
    postedTasks: [...new Set(posted.flatMap(({ taskId }) => task.get(taskId) ?? []))],
    ...(problem.tasks.length > manyTasks ? { schedules: 2 } : {}),
  };
}

interface Learnt {
  barred: { person: number; task: number }[];
  shut: Set<number>;
  words: Map<number, string>;
}

const numbersOf = ({ problem }: BuiltProblem) => ({
  person: new Map(problem.people.map(({ id }, i) => [id, i])),
  task: new Map(problem.tasks.map(({ id }, i) => [id, i])),
});

/** What a rule, once set aside, lets people do without; the other rules are the gates' own and no part of the plan. */
const lacksBy: Partial<Record<StopOverride['rule'], Allowed['lacks']>> = {
  card: 'clearance',
  'least-age': 'clearance',
  'age-for-hazard': 'clearance',
  teardown: 'clearance',
  skill: 'skill',
  'learner-alone': 'company',
  'minimum-crew': 'crew',
};

function allowedBy(overrides: readonly StopOverride[], numbers: ReturnType<typeof numbersOf>): Allowed[] {
  return overrides.flatMap(({ rule, volunteerId, taskId }): Allowed[] => {
    const lacks = lacksBy[rule];
    const person = numbers.person.get(volunteerId);
    const task = numbers.task.get(taskId);
    return lacks === undefined || person === undefined || task === undefined ? [] : [{ person, task, lacks }];
  });
}

const saidOf = (lost: Lost): string =>
  lost.kind === 'gate' ? lost.findings.map(({ words }) => words).join(' ') : lost.words;

/** What the gates have said goes into the next round. A crew that is merely short is tried again with others. */
function learn(lost: readonly Lost[], numbers: ReturnType<typeof numbersOf>, learnt: Learnt): void {
  const isOnlyShort = lost.every(({ kind }) => kind === 'short');
  for (const one of lost) {
    const task = numbers.task.get(one.seat.taskId);
    const person = numbers.person.get(one.seat.volunteerId);
    if (task === undefined || person === undefined) continue;
    if (one.kind === 'gate') {
      learnt.barred.push({ person, task });
      learnt.words.set(task, one.findings[0]?.words ?? '');
    } else if (one.kind === 'closed' || isOnlyShort) {
      learnt.shut.add(task);
      learnt.words.set(task, one.words);
    }
  }
}

/** The reason that the engine knows, and what a gate has said where one was in the way. */
function whyOf(
  { problem }: BuiltProblem,
  outcome: CallOutcome,
  task: number,
  words: ReadonlyMap<number, string>,
): string {
  const said = words.get(task);
  const fallen = outcome.kind === 'called' ? outcome.fallen.find((one) => one.task === task) : undefined;
  if (!fallen || fallen.why.kind === 'closed') return said ?? 'It must wait.';
  return [fallenSentence(problem, fallen), ...(said === undefined ? [] : [said])].join(' ');
}

function howSeated(seat: CalledSeat, posted: readonly PlaceEntity[]): SeatedHow {
  const theirs = posted.filter(({ volunteerId }) => volunteerId === seat.volunteerId);
  if (theirs.length === 0) return 'walked in';
  return theirs.some(({ taskId }) => taskId === seat.taskId) ? 'as posted' : 'moved';
}
