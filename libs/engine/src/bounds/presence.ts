import { EVER, NEVER } from '../calendar.js';
import { rateOf } from '../lengths.js';
import type { Minute, Problem, Task } from '../problem.js';

/**
 * When a task can go on at all, and how fast at most, given who is at the yard: everybody fit for it counts as free.
 *
 * A sawyer who comes on Saturdays makes Saturday the only day of every task that seats a sawyer. Time is cut into
 * slices in which nobody comes, goes or loses a clearance; slices with too few people are left out.
 *
 *     rate     2 |   ____
 *              1 |__|    |__        ____
 *                turnout            turnout
 */
export interface Presence {
  /** Slices in order of time, in which the task can go on. */
  from: Int32Array;
  to: Int32Array;
  turnout: Int32Array;
  /** Greatest rate in the slice: work a minute for work, 1 for a set length. */
  rate: Float64Array;
  /** Work that can be done before the slice; one entry more than slices. */
  done: Float64Array;
  /** Slices of turnout w are first[w] to first[w + 1]. */
  first: Int32Array;
  /** Slices that touch within one turnout, joined, each with its greatest rate. */
  runFrom: Int32Array;
  runTo: Int32Array;
  runRate: Float64Array;
  /** Least and greatest rate over all slices. */
  slowest: number;
  fastest: number;
  /** Spans, ends included, in which a say-so can be given. */
  sayFrom: Int32Array;
  sayTo: Int32Array;
}

interface Stay {
  person: number;
  from: Minute;
  to: Minute;
}

/** Presences of the tasks of a problem; tasks that ask the same share one. */
export class Presences {
  readonly #stays: Stay[][];
  readonly #known = new Map<string, Presence>();

  constructor(readonly problem: Problem) {
    this.#stays = problem.turnouts.map(() => []);
    problem.people.forEach(({ stays }, person) => {
      for (const { turnout, from, to, showUp } of stays) {
        if (showUp > 0) this.#stays[turnout].push({ person, from, to });
      }
    });
  }

  of(task: Task): Presence {
    const { effort, crew, seats, clearances, extraHandShare } = task;
    const key = JSON.stringify([effort.kind, crew, seats, clearances, extraHandShare]);
    let presence = this.#known.get(key);
    if (!presence) this.#known.set(key, (presence = this.#make(task)));
    return presence;
  }

  #make(task: Task): Presence {
    const from: number[] = [];
    const to: number[] = [];
    const turnout: number[] = [];
    const rate: number[] = [];
    const first = [0];
    const says: [Minute, Minute][] = [];
    const fit = new Fitness(this.problem, task);
    const unmanned = fit.least === 0 && task.effort.kind !== 'work';
    this.problem.turnouts.forEach(({ start, end }, w) => {
      const stays = unmanned ? [] : this.#stays[w].filter((stay) => fit.lastMinute(stay.person) >= stay.from);
      const cuts = unmanned ? [start, end] : fit.cuts(stays, start, end);
      for (let k = 0; k + 1 < cuts.length; k++) {
        const r = unmanned ? 1 : fit.rate(stays, cuts[k]);
        if (r <= 0) continue;
        from.push(cuts[k]);
        to.push(cuts[k + 1]);
        turnout.push(w);
        rate.push(r);
      }
      first.push(from.length);
      says.push(...fit.says(stays, start, end));
    });
    return joined(from, to, turnout, rate, first, says);
  }
}

/** Who may do what on one task. */
class Fitness {
  /** Fewest hands that may start. */
  readonly least: number;
  readonly #last: Float64Array;
  readonly #seats: Uint8Array[];

  constructor(
    readonly problem: Problem,
    readonly task: Task,
  ) {
    const { people } = problem;
    const seated = task.seats.reduce((sum, seat) => sum + seat.count, 0);
    this.least = Math.max(task.crew.min, seated);
    this.#last = Float64Array.from(people, (_, p) => this.#lapse(p, task.clearances));
    this.#seats = task.seats.map((seat) =>
      Uint8Array.from(people, ({ levels }, p) =>
        levels[seat.skill] >= seat.level && this.#lapse(p, seat.clearances) > EVER ? 1 : 0,
      ),
    );
  }

  /** Last minute on which the person may work on the task; EVER where never. */
  lastMinute(person: number): Minute {
    return this.#last[person];
  }

  #lapse(p: number, clearances: number[]): Minute {
    let last: Minute = NEVER;
    for (const clearance of clearances) {
      let until: Minute = EVER;
      for (const held of this.problem.people[p].clearances) {
        if (held.clearance === clearance) until = Math.max(until, held.until ?? NEVER);
      }
      last = Math.min(last, until);
    }
    return last;
  }

  /** Minutes of the turnout at which the number of hands can change, its start and end among them. */
  cuts(stays: Stay[], start: Minute, end: Minute): Minute[] {
    const cuts = new Set([start, end]);
    for (const { person, from, to } of stays) {
      for (const t of [from, to, this.#last[person] + 1]) if (t > start && t < end) cuts.add(t);
    }
    return [...cuts].sort((a, b) => a - b);
  }

  /** Greatest rate in the slice that begins at t, 0 when it can't go on. */
  rate(stays: Stay[], t: Minute): number {
    const { task } = this;
    const there = stays.filter(({ person, from, to }) => from <= t && t < to && this.#last[person] >= t);
    if (there.length < this.least) return 0;
    const seated = task.seats.every((seat, s) => count(there, this.#seats[s]) >= seat.count);
    if (!seated) return 0;
    return task.effort.kind === 'work' ? rateOf(task, Math.min(task.crew.max, there.length)) : 1;
  }

  /** A say-so by one person is given while one who may is there; with more people, any time in the turnout. */
  says(stays: Stay[], start: Minute, end: Minute): [Minute, Minute][] {
    if (this.task.effort.kind !== 'hold') return [];
    if (this.least > 1) return [[start, end]];
    const seat = this.#seats.at(0);
    return stays
      .filter(({ person }) => !seat || seat[person] === 1)
      .map(({ from, to }): [Minute, Minute] => [from, to])
      .sort((a, b) => a[0] - b[0]);
  }
}

function count(stays: Stay[], fit: Uint8Array): number {
  let sum = 0;
  for (const { person } of stays) sum += fit[person];
  return sum;
}

function joined(
  from: number[],
  to: number[],
  turnout: number[],
  rate: number[],
  first: number[],
  says: [Minute, Minute][],
): Presence {
  const done = new Float64Array(from.length + 1);
  const runs: { from: Minute; to: Minute; rate: number }[] = [];
  from.forEach((start, k) => {
    done[k + 1] = done[k] + rate[k] * (to[k] - start);
    const last = runs.at(-1);
    if (last && k > 0 && turnout[k - 1] === turnout[k] && last.to === start) {
      last.to = to[k];
      last.rate = Math.max(last.rate, rate[k]);
    } else runs.push({ from: start, to: to[k], rate: rate[k] });
  });
  const says2: [Minute, Minute][] = [];
  for (const [a, b] of says) {
    const last = says2.at(-1);
    if (last && a <= last[1]) last[1] = Math.max(last[1], b);
    else says2.push([a, b]);
  }
  return {
    from: Int32Array.from(from),
    to: Int32Array.from(to),
    turnout: Int32Array.from(turnout),
    rate: Float64Array.from(rate),
    done,
    first: Int32Array.from(first),
    runFrom: Int32Array.from(runs, (run) => run.from),
    runTo: Int32Array.from(runs, (run) => run.to),
    runRate: Float64Array.from(runs, (run) => run.rate),
    slowest: Math.min(...rate, Infinity),
    fastest: Math.max(...rate, 0),
    sayFrom: Int32Array.from(says2, (one) => one[0]),
    sayTo: Int32Array.from(says2, (one) => one[1]),
  };
}
