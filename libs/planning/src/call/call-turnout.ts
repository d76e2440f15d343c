import { boundless, type Minute, type Plan, solve } from '@ribband/engine';
import type { CalledWork, CallInput } from './call-shapes.js';
import { addIdleHands } from './idle-hands.js';
import { letOn } from './let-on.js';
import { morningPlan, morningProblem } from './morning-problem.js';
import { type Fallen, whyFallen } from './why-fallen.js';

export type CallOutcome =
  | {
      kind: 'called';
      /** In order of time. */
      work: CalledWork[];
      /** Posted work that is not done now, and why. */
      fallen: Fallen[];
      /** Who came and has no work. */
      idle: number[];
      /** When she is ready, if all goes on as expected from here. */
      ready: Minute;
    }
  /** Something that has nothing to do with this morning can't be planned at all. */
  | { kind: 'no plan'; outcome: Exclude<ReturnType<typeof solve>, { kind: 'plan' }> };

/** Enough for the yard's own order and the usual rules, justified; a few tenths of a second on the demo yard. */
const usualSchedules = 24;

/**
 * The best permitted set of work for the people who came: the yard's problem with exactly them at this turnout, every
 * later turnout as expected, solved from the order of the plan in force. The aim is the plan's own: first the earliest
 * ready minute, then as little changed from what was posted as that allows, since what was posted is wished for and kept
 * where it costs nothing. Whoever is left over joins work that has room.
 *
 * Pure: the same input gives the same answer. Costs `schedules` passes of the engine's generator and no bound.
 */
export function callTurnout(given: CallInput): CallOutcome {
  const { turnout, present, postedTasks, schedules = usualSchedules } = given;
  const end = given.problem.turnouts[turnout]?.end ?? 0;
  const { problem: letIn, twinOf } = letOn(given.problem, given.allowed ?? [], end);
  const input = { ...given, problem: letIn };
  const problem = morningProblem(input);
  const options = {
    seed: 1,
    schedules,
    // How good the rest of the year can be nobody asks in the morning.
    other: boundless,
    ...(input.warm ? { warm: morningPlan(input.warm, input) } : {}),
  };
  const outcome = solve(problem, options);
  if (outcome.kind === 'no plan') return { kind: 'no plan', outcome };
  const { plan } = outcome;
  const work = addIdleHands(problem, workOf(plan, turnout), turnout, present);
  const busy = new Set(work.flatMap(({ crew }) => crew.map(({ person }) => person)));
  const on = new Set(work.map(({ task }) => task));
  return {
    kind: 'called',
    work,
    fallen: postedTasks
      .filter((task) => !on.has(task))
      .map((task) => inOwnSkills(whyFallen({ ...input, problem, plan, work }, task), twinOf)),
    idle: present.flatMap(({ person }) => (busy.has(person) ? [] : [person])),
    ready: plan.ready,
  };
}

/** A twin of a skill is that skill to whoever reads it. */
const inOwnSkills = (fallen: Fallen, twinOf: (skill: number) => number): Fallen =>
  fallen.why.kind === 'seat'
    ? { ...fallen, why: { ...fallen.why, skill: twinOf(fallen.why.skill) } }
    : fallen;

/** What a plan does at one turnout. Work without length, such as a say-so, is no work for a crew. */
export function workOf(plan: Pick<Plan, 'segments'>, turnout: number): CalledWork[] {
  const works = new Map<number, CalledWork>();
  for (const { task, turnout: at, start, end, crew } of plan.segments) {
    if (at !== turnout || end <= start) continue;
    const work = works.get(task) ?? { task, start, end, crew: [] };
    works.set(task, work);
    work.start = Math.min(work.start, start);
    work.end = Math.max(work.end, end);
    for (const { person, seat } of crew) {
      const goesOn = work.crew.find((one) => one.person === person && one.seat === seat && one.end === start);
      if (goesOn) goesOn.end = end;
      else work.crew.push({ person, seat, start, end });
    }
  }
  return [...works.values()].sort((a, b) => a.start - b.start || a.task - b.task);
}
