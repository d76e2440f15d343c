import { ONE_GO, SPLIT } from '../lengths.js';
import type { Problem, Task } from '../problem.js';
import type { Item, Load } from './loads.js';
import type { Reach } from './reach.js';

/**
 * Tasks of which no two can run at the same minute: they ask together for more of a tool than there is, for people that
 * can't be found for both (Hall 1935: some seats have fewer people fit for them than they ask), or one waits for the
 * other's end. A set of such tasks, each with each, is a queue: a load of which there is one.
 */
export interface Conflicts {
  loads: Load[];
  /** Pairs that can't run side by side, links apart. */
  pairs: [number, number][];
}

/** More tasks than that are not compared each with each. */
const MOST_TASKS = 400;
const MOST_QUEUES = 16;
const MOST_FIRSTS = 60;
/** Up to so many candidates each is weighed anew with the others; beyond, by all that it conflicts with. */
const MOST_WEIGHED = 120;
/** Kinds of seats of two tasks up to which every set of them is tried. */
const MOST_KINDS = 8;

/** @param order tasks so that every link runs forward */
export function conflictsOf(problem: Problem, reach: Reach, order: ArrayLike<number>): Conflicts {
  const live = Array.from(order).filter(
    (i) => problem.tasks[i].progress.kind !== 'done' && (reach.lies[i] === ONE_GO || reach.lies[i] === SPLIT),
  );
  if (live.length > MOST_TASKS || live.length < 2) return { loads: [], pairs: [] };
  const n = problem.tasks.length;
  const apart = live.reduce((grid, i) => grid.set(i, new Uint8Array(n)), new Map<number, Uint8Array>());
  const mark = (a: number, b: number) => {
    apart.get(a)![b] = 1;
    apart.get(b)![a] = 1;
  };
  const pairs: [number, number][] = [];
  const clash = new Clash(problem);
  live.forEach((a, k) => {
    for (const b of live.slice(k + 1)) {
      if (!clash.between(a, b)) continue;
      pairs.push([a, b]);
      mark(a, b);
    }
  });
  if (pairs.length === 0) return { loads: [], pairs };
  const after = followers(problem, order);
  for (const a of live) for (const b of live) if (after[a][b]) mark(a, b);

  const minutes = new Map(live.map((i) => [i, reach.leastMinutes(i)]));
  const near = new Map(
    live.map((i) => [
      i,
      live.reduce((sum, j) => sum + (apart.get(i)![j] ? minutes.get(j)! : 0), minutes.get(i)!),
    ]),
  );
  const queues = new Map<string, { tasks: number[]; minutes: number }>();
  const firsts = [...live].sort((a, b) => near.get(b)! - near.get(a)!).slice(0, MOST_FIRSTS);
  for (const first of firsts) {
    const tasks = queueFrom(first, live, apart, minutes, near);
    const sum = tasks.reduce((total, i) => total + minutes.get(i)!, 0);
    if (tasks.length > 1) queues.set(tasks.join(), { tasks, minutes: sum });
  }
  const kept = [...queues.values()].sort((a, b) => b.minutes - a.minutes).slice(0, MOST_QUEUES);
  const { total } = reach.calendar;
  const loads = kept.map(({ tasks }): Load => {
    const items = tasks.map((task): Item => ({
      task,
      height: 1,
      minutes: minutes.get(task)!,
      whole: reach.lies[task] === ONE_GO,
    }));
    return {
      kind: 'queue',
      name: { tasks },
      at: Float64Array.of(0, total),
      there: Float64Array.of(1, 0),
      sum: Float64Array.of(0, total),
      most: 1,
      items,
    };
  });
  return { loads, pairs };
}

/** Grows a queue from one task: next always the one with most minutes among itself and those it leaves to choose from. */
function queueFrom(
  first: number,
  live: number[],
  apart: Map<number, Uint8Array>,
  minutes: Map<number, number>,
  near: Map<number, number>,
): number[] {
  const queue = [first];
  let open = live.filter((i) => apart.get(first)![i]);
  while (open.length > 0) {
    let next = open[0];
    let most = -1;
    for (const i of open) {
      const row = apart.get(i)!;
      let sum = near.get(i)!;
      if (open.length <= MOST_WEIGHED) {
        sum = minutes.get(i)!;
        for (const j of open) if (row[j]) sum += minutes.get(j)!;
      }
      if (sum > most) [next, most] = [i, sum];
    }
    queue.push(next);
    const row = apart.get(next)!;
    open = open.filter((i) => row[i]);
  }
  return queue.sort((a, b) => a - b);
}

/** By task: the tasks that can't start before its end. */
function followers(problem: Problem, order: ArrayLike<number>): Uint8Array[] {
  const n = problem.tasks.length;
  const next: number[][] = problem.tasks.map(() => []);
  for (const { before, after, relation, lag } of problem.links) {
    const waits = problem.tasks[after].progress.kind === 'waiting';
    if (waits && relation === 'finish-to-start' && lag >= 0) next[before].push(after);
  }
  const after = problem.tasks.map(() => new Uint8Array(n));
  for (let k = n - 1; k >= 0; k--) {
    const i = order[k];
    for (const j of next[i]) {
      after[i][j] = 1;
      for (let t = 0; t < n; t++) if (after[j][t]) after[i][t] = 1;
    }
  }
  return after;
}

/** What a task asks of people: sets of them as bits, each with how many. */
type Want = { people: bigint; count: number }[];

class Clash {
  readonly #tools: { tool: number; count: number }[][];
  readonly #most: number[];
  readonly #wants: Want[];
  readonly #numbers: number[];
  readonly #known = new Map<string, boolean>();

  constructor(problem: Problem) {
    this.#most = problem.tools.map(({ capacity, spans }) =>
      Math.max(capacity, ...spans.map((span) => span.capacity)),
    );
    this.#tools = problem.tasks.map((task) => task.tools);
    const numbers = new Map<string, number>();
    this.#wants = [];
    this.#numbers = problem.tasks.map((task) => {
      const key = JSON.stringify([task.seats, task.clearances, task.crew.min]);
      let number = numbers.get(key);
      if (number === undefined) {
        numbers.set(key, (number = numbers.size));
        this.#wants.push(wantOf(problem, task));
      }
      return number;
    });
  }

  between(a: number, b: number): boolean {
    for (const one of this.#tools[a]) {
      for (const other of this.#tools[b]) {
        if (one.tool === other.tool && one.count + other.count > this.#most[one.tool]) return true;
      }
    }
    const [x, y] = [this.#numbers[a], this.#numbers[b]].sort((p, q) => p - q);
    const key = `${x} ${y}`;
    let known = this.#known.get(key);
    if (known === undefined) {
      known = !canBoth([...this.#wants[x], ...this.#wants[y]]);
      this.#known.set(key, known);
    }
    return known;
  }
}

function wantOf(problem: Problem, task: Task): Want {
  const fit = (clearances: number[], holds: (levels: number[]) => boolean): bigint =>
    problem.people.reduce((set, { levels, stays, clearances: held }, p) => {
      const comes = stays.some((stay) => stay.showUp > 0);
      const cleared = clearances.every((c) => held.some((one) => one.clearance === c));
      return comes && cleared && holds(levels) ? set | (1n << BigInt(p)) : set;
    }, 0n);
  const want = task.seats.map(({ skill, level, count, clearances }) => ({
    people: fit([...task.clearances, ...clearances], (levels) => levels[skill] >= level),
    count,
  }));
  const more = task.crew.min - want.reduce((sum, one) => sum + one.count, 0);
  if (more > 0) want.push({ people: fit(task.clearances, () => true), count: more });
  return want;
}

/** Hall's condition over every set of wants (each alone and all together where there are many). */
function canBoth(wants: Want): boolean {
  const merged = new Map<bigint, number>();
  for (const { people, count } of wants) merged.set(people, (merged.get(people) ?? 0) + count);
  const list = [...merged];
  const sets =
    list.length > MOST_KINDS
      ? [...list.map((_, k) => 1 << k), 2 ** Math.min(30, list.length) - 1]
      : Array.from({ length: 2 ** list.length - 1 }, (_, k) => k + 1);
  return sets.every((set) => {
    let people = 0n;
    let count = 0;
    list.forEach(([fit, wanted], k) => {
      if ((set & (1 << k)) === 0) return;
      people |= fit;
      count += wanted;
    });
    return count <= bits(people);
  });
}

function bits(set: bigint): number {
  let count = 0;
  for (; set > 0n; set &= set - 1n) count++;
  return count;
}
