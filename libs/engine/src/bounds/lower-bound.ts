import { NEVER } from '../calendar.js';
import type { Bound } from '../plan.js';
import type { Minute, Problem } from '../problem.js';
import { Refuter } from './refuter.js';

export interface BoundOptions {
  /** The ready minute of a plan: once the bound reaches it, it is proved and the search stops. */
  upTo?: Minute;
  /** A bound of the same problem that is known already: only what is stronger than narrowing is tried from there. */
  from?: Bound;
  /** Asked between tests; once true, the bound so far is the answer. */
  shouldStop?: () => boolean;
  /** Rounds of narrowing for the destructive bound; 0 leaves it out. 12 unless given. */
  rounds?: number;
  /**
   * Suppositions that shaving may try at each minute, the strongest and slowest argument; 0 leaves it out, which is
   * what happens unless given.
   */
  probes?: number;
  /** Told each bound that is higher than the one before. */
  onHigher?: (bound: Bound) => void;
}

/**
 * An earliest ready minute that no plan can beat, by the strongest of four arguments: critical path on the calendar,
 * energy of tools and people, load on skills, and all of them narrowing each other.
 *
 * NEVER (from the calendar) means that no plan exists before the horizon. Valid under calendars, skills, caps,
 * learners, set-up, lags and openings: each argument leaves out what it doesn't understand.
 *
 * @throws RangeError where links go round in a circle
 */
export function lowerBound(problem: Problem, options: BoundOptions = {}): Bound {
  const refuter = new Refuter(problem);
  const stop = options.shouldStop ?? (() => false);
  const last = Math.min(problem.horizon, (options.upTo ?? NEVER) - 1);
  const bound: Bound = options.from
    ? { ...options.from }
    : { ready: refuter.path, kind: 'critical path', bottleneck: null };
  if (bound.ready > problem.horizon) return { ...bound, ready: NEVER };

  const raise = (kind: Bound['kind'], refutes: (deadline: Minute) => boolean) => {
    refuter.forget();
    const ready = firstNotRefuted(bound.ready, last, refutes, stop);
    if (ready === bound.ready) return;
    bound.ready = ready;
    bound.kind = kind;
    bound.bottleneck = refuter.bottleneck ?? bound.bottleneck;
    if (ready <= problem.horizon) options.onHigher?.({ ...bound });
  };
  const rounds = options.rounds ?? 12;
  const probes = options.probes ?? 0;
  if (!options.from) {
    raise('resource energy', (deadline) => refuter.byEnergy(deadline));
    raise('skill load', (deadline) => refuter.bySkillLoad(deadline));
    if (rounds > 0) raise('destructive', (deadline) => refuter.byNarrowing(deadline, rounds));
  }
  if (probes > 0) raise('destructive', (deadline) => refuter.byShaving(deadline, rounds, probes, stop));
  return bound.ready > problem.horizon ? { ...bound, ready: NEVER } : bound;
}

/** Doubling strides from `from` while minutes are refuted, then halving between; past `last` nothing is tried. */
function firstNotRefuted(
  from: Minute,
  last: Minute,
  refutes: (deadline: Minute) => boolean,
  stop: () => boolean,
): Minute {
  let ready = from;
  let stride = 1;
  let open = last + 1;
  while (ready < open && !stop()) {
    const deadline = Math.min(open - 1, ready + stride - 1);
    if (refutes(deadline)) {
      ready = deadline + 1;
      stride = open <= last ? Math.max(1, (open - ready) >> 1) : stride * 2;
    } else {
      open = deadline;
      stride = Math.max(1, (open - ready) >> 1);
    }
  }
  return ready;
}
