import { NEVER } from '../calendar.js';
import type { Plan } from '../plan.js';
import type { Minute, Problem } from '../problem.js';
import type { Beliefs } from './beliefs.js';
import { mix, type Tables } from './chance.js';
import { courseOf } from './course.js';
import type { Forecast } from './forecast-shape.js';
import { Luck } from './luck.js';
import { Replay } from './replay.js';
import { Tale } from './tale.js';

export interface ForecastOptions {
  /** The same problem, plan, beliefs, seed and number of futures give the same forecast. */
  seed: number;
  /** 10,000 unless given. */
  futures?: number;
  /**
   * The first minutes of the weeks that are told apart, in order of time. Days are the caller's: unless given, weeks are
   * 10,080 minutes from minute 0 on.
   */
  weeks?: readonly Minute[] | undefined;
  /** Where the ready minute of each future is written, NEVER where there is none, to hold it against others of the same luck. */
  ready?: Int32Array | undefined;
  /** Asked every few futures; once true, what was lived through so far is told. At least one is. */
  shouldStop?: () => boolean;
}

/**
 * Lives through many futures of the yard and tells when she is ready in them. The problem must be sound and the plan
 * one of its own: the plan gives the order in which work is taken up.
 */
export function forecast(
  problem: Problem,
  plan: Pick<Plan, 'tasks'>,
  beliefs: Beliefs,
  { seed, futures = 10_000, weeks, ready, shouldStop = () => false }: ForecastOptions,
): Forecast {
  const course = courseOf(problem, plan);
  const luck = new Luck(course, beliefs);
  const replay = new Replay(course, luck);
  const tale = new Tale(course, beliefs, { futures, weeks });
  for (let f = 0; f < futures; f++) {
    if (f > 0 && f % 64 === 0 && shouldStop()) break;
    luck.begin(saltOfFuture(seed, f));
    replay.run();
    tale.hear(luck, replay);
    if (ready) ready[f] = replay.ready;
  }
  return tale.tell();
}

export interface ReadyOptions {
  seed: number;
  futures: number;
  /** Those of what it is compared with, so that none is made twice. */
  tables?: Tables;
  /** The ready minutes of its first futures, where they are known already. */
  known?: Int32Array | undefined;
}

/** The ready minute of each future, NEVER where she is not ready within the turnouts; for comparing changes. */
export function readyMinutes(
  problem: Problem,
  plan: Pick<Plan, 'tasks'>,
  beliefs: Beliefs,
  { seed, futures, tables, known = new Int32Array(0) }: ReadyOptions,
): Int32Array {
  const course = courseOf(problem, plan);
  const luck = new Luck(course, beliefs, tables);
  const replay = new Replay(course, luck);
  const ready = new Int32Array(futures);
  ready.set(known);
  for (let f = known.length; f < futures; f++) {
    luck.begin(saltOfFuture(seed, f));
    replay.run();
    ready[f] = replay.ready;
  }
  return ready;
}

export function saltOfFuture(seed: number, future: number): number {
  return mix(mix(seed) + Math.imul(future + 1, 0x9e3779b1));
}

export function minuteOrNull(t: Minute): Minute | null {
  return t >= NEVER ? null : t;
}
