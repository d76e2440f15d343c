import type { Plan } from '../plan.js';
import type { Problem } from '../problem.js';
import { plainBeliefs } from './beliefs.js';
import { courseOf } from './course.js';
import { Luck } from './luck.js';
import { Replay } from './replay.js';

/** How near the forecast's replay of one morning comes to what the engine itself would have the crew do. */
export interface Agreement {
  /** Share of the engine's person-minutes that the replay gives to the same task, whoever does them, 0..1. */
  sameTask: number;
  /** And of those, with the very same person on it. */
  samePerson: number;
  /** Person-minutes given out by each. */
  engine: number;
  replay: number;
}

/**
 * Compares the next turnout of a morning's plan with the replay of it.
 * @param problem as on the morning: its `now`, and stays at the turnout only of those who came, `showUp` 1
 * @param before the plan whose order the forecast replays
 * @param morning the engine's plan of that problem
 */
export function agreement(problem: Problem, before: Pick<Plan, 'tasks'>, morning: Plan): Agreement {
  const course = courseOf(problem, before);
  const { model } = course;
  const luck = new Luck(course, plainBeliefs(problem));
  const replay = new Replay(course, luck);
  const { n, crowd } = model;
  const book = new Float64Array(crowd.count * n);
  luck.begin(1);
  replay.runFirst(book);
  const own = new Float64Array(crowd.count * n);
  const w = model.calendar.turnoutAfter(problem.now);
  for (const { turnout, task, start, end, crew } of morning.segments) {
    if (turnout !== w) continue;
    for (const { person } of crew) own[crowd.rank[person] * n + task] += end - start;
  }
  const byTask = (of: Float64Array) => {
    const sums = new Float64Array(n);
    of.forEach((minutes, k) => (sums[k % n] += minutes));
    return sums;
  };
  const both = (a: Float64Array, b: Float64Array) =>
    a.reduce((sum, minutes, k) => sum + Math.min(minutes, b[k]), 0);
  const total = (of: Float64Array) => of.reduce((sum, minutes) => sum + minutes, 0);
  const engine = total(own);
  const share = (minutes: number) => (engine > 0 ? minutes / engine : 1);
  return {
    sameTask: share(both(byTask(own), byTask(book))),
    samePerson: share(both(own, book)),
    engine,
    replay: total(book),
  };
}
