import { NEVER } from '../calendar.js';
import type { Beliefs } from '../forecast/beliefs.js';
import { Tables } from '../forecast/chance.js';
import { minuteOrNull, readyMinutes } from '../forecast/forecast.js';
import type { Plan } from '../plan.js';
import type { Minute, Problem } from '../problem.js';
import type { Advice, AdviceItem, Change } from './advice-shape.js';
import { changed } from './changed.js';
import { gainsOf } from './gains.js';

export interface AdviseOptions {
  seed: number;
  /** Futures for those that are looked at in full; 2,000 unless given. */
  futures?: number;
  /** How many are looked at in full; 12 unless given. */
  most?: number;
  shouldStop?: () => boolean;
}

/** A first look at each candidate takes this share of the futures. */
const FIRST_LOOK = 10;

/**
 * Ranks what could be done by how much it would help. All candidates live through the same futures (common random
 * numbers), so that the difference is seen and not the luck. A short first look at each picks those that are
 * simulated in full (as in ranking and selection: screen, then compare the survivors).
 *
 * The order of work is the plan's in all of them; a new plan made for the change may do better still.
 */
export function advise(
  problem: Problem,
  plan: Pick<Plan, 'tasks'>,
  beliefs: Beliefs,
  candidates: readonly Change[],
  { seed, futures = 2000, most = 12, shouldStop = () => false }: AdviseOptions,
): Advice {
  const gate = problem.aim.gate;
  const { horizon } = problem;
  const tables = new Tables();
  const base = readyMinutes(problem, plan, beliefs, { seed, futures, tables });
  const look = Math.min(futures, Math.max(1, Math.ceil(futures / FIRST_LOOK)));
  const live = (change: Change, count: number, known?: Int32Array): Int32Array => {
    const with_ = changed(problem, beliefs, change);
    return readyMinutes(with_.problem, plan, with_.beliefs, { seed, futures: count, tables, known });
  };
  const first: { candidate: number; seen: Int32Array; worth: number }[] = [];
  for (const [candidate, change] of candidates.entries()) {
    if (shouldStop()) break;
    const seen = live(change, look);
    const item = compare(candidate, change, base.subarray(0, look), seen, gate, horizon);
    first.push({ candidate, seen, worth: worthOf(item) });
  }
  first.sort((a, b) => b.worth - a.worth || a.candidate - b.candidate);
  const ranked: AdviceItem[] = [];
  for (const { candidate, seen } of first.slice(0, most)) {
    if (shouldStop()) break;
    const change = candidates[candidate];
    ranked.push(compare(candidate, change, base, live(change, futures, seen), gate, horizon));
  }
  ranked.sort((a, b) => worthOf(b) - worthOf(a) || a.candidate - b.candidate);
  const own = summary(base, gate);
  return {
    futures,
    base: own,
    ranked,
    screened: { candidates: candidates.length, simulated: ranked.length },
  };
}

/** Odds first; a day earlier weighs as much as half a point of odds, so that it also decides where odds are all or none. */
function worthOf({ oddsGained, minutesGained }: AdviceItem): number {
  return oddsGained.odds + minutesGained.minutes / (200 * 1440);
}

function compare(
  candidate: number,
  change: Change,
  base: Int32Array,
  with_: Int32Array,
  gate: Minute,
  horizon: Minute,
): AdviceItem {
  return {
    candidate,
    change,
    ...summary(with_, gate),
    ...gainsOf(base, with_, { gate, horizon }),
  };
}

function summary(ready: Int32Array, gate: Minute) {
  const sorted = ready.slice().sort();
  const n = sorted.length;
  const at = (p: number) => minuteOrNull(sorted[Math.max(0, Math.ceil(p * n - 1e-9) - 1)] ?? NEVER);
  let by = 0;
  while (by < n && sorted[by] <= gate) by++;
  const odds = by / n;
  return { gate: { odds, error: Math.sqrt((odds * (1 - odds)) / n) }, p50: at(0.5), p80: at(0.8) };
}
