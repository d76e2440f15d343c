import { ONE_GO, SPLIT } from '../lengths.js';
import type { Bottleneck } from '../plan.js';
import type { Minute, Problem } from '../problem.js';
import { MaxFlow } from './max-flow.js';
import type { Reach } from './reach.js';

/**
 * Can everybody's hours carry what their skills are asked for? A flow from people's minutes, block of time by block of
 * time, through kinds of seats to tasks, each within its window. Where it can't all arrive, the cut names the skills
 * that starve and the people who are the only ones to feed them.
 *
 *     people alike x block  ->  kind of seat x block  ->  seats alike with one window  ->
 *          minutes there             if fit                  no more hands at a time than seats
 *
 * People alike are one row, seats alike one demand, so the flow stays small however large the yard.
 */
export class SkillLoad {
  readonly #kinds: Kind[];
  readonly #asks: Ask[];
  readonly #classes: Class[];
  readonly #pieces: Piece[][];

  constructor(
    readonly problem: Problem,
    readonly reach: Reach,
  ) {
    const kinds = new Map<string, Kind>();
    this.#asks = asksOf(problem, reach, kinds);
    this.#kinds = [...kinds.values()];
    this.#classes = classesOf(problem, this.#kinds);
    this.#pieces = problem.people.map((_, p) => piecesOf(problem, p));
  }

  /**
   * Null when the hours can carry everything within the windows, else what is short.
   * @param from earliest start, and `to` latest end, a task, in minutes
   * @param share of everybody's hours that is counted on; what is said to be there is the whole all the same
   */
  shortage(from: Int32Array, to: Int32Array, share = 1): Bottleneck | null {
    if (this.#asks.length === 0) return null;
    const cuts = this.#cuts(from, to);
    const blocks = cuts.length - 1;
    const demands = this.#demands(cuts, from, to);
    const kindAt = this.#classes.length * blocks;
    const demandAt = kindAt + this.#kinds.length * blocks;
    const source = demandAt + demands.length;
    const sink = source + 1;
    const flow = new MaxFlow(sink + 1, 4096);
    const supply = this.#supply(cuts);
    this.#classes.forEach((one, c) => {
      for (let b = 0; b < blocks; b++) {
        const minutes = supply[c * blocks + b];
        if (minutes <= 0) continue;
        flow.pipe(source, c * blocks + b, minutes * share);
        for (const kind of one.kinds) flow.pipe(c * blocks + b, kindAt + kind * blocks + b, Infinity);
      }
    });
    let asked = 0;
    demands.forEach((demand, d) => {
      asked += demand.minutes;
      flow.pipe(demandAt + d, sink, demand.minutes);
      demand.most.forEach((most, k) => {
        if (most > 0) flow.pipe(kindAt + demand.kind * blocks + demand.first + k, demandAt + d, most);
      });
    });
    if (flow.run(source, sink) > asked - 0.5) return null;

    const starved = flow.starved(sink);
    const short = demands.filter((_, d) => starved[demandAt + d]);
    const skills = new Set(short.flatMap(({ kind }) => this.#kinds[kind].skill ?? []));
    const people = new Set<number>();
    let there = 0;
    let first = Infinity;
    let last = 0;
    for (const demand of short) {
      first = Math.min(first, demand.first);
      last = Math.max(last, demand.first + demand.most.length);
    }
    this.#classes.forEach((one, c) => {
      for (let b = 0; b < blocks; b++) {
        if (!starved[c * blocks + b]) continue;
        there += supply[c * blocks + b];
        for (const p of one.people) people.add(p);
      }
    });
    return {
      skills: [...skills].sort((a, b) => a - b),
      people: [...people].sort((a, b) => a - b),
      needed: short.reduce((sum, demand) => sum + demand.minutes, 0),
      there,
      from: cuts[first],
      to: cuts[last],
    };
  }

  /** Blocks of time: cut where windows open and close, thinned evenly when there are many. */
  #cuts(from: Int32Array, to: Int32Array): Minute[] {
    const all = new Set<number>();
    for (const ask of this.#asks) {
      all.add(Math.max(from[ask.task], this.problem.now));
      all.add(to[ask.task]);
    }
    const sorted = [...all].sort((a, b) => a - b);
    if (sorted.length <= MOST_BLOCKS) return sorted;
    return Array.from(
      { length: MOST_BLOCKS + 1 },
      (_, k) => sorted[Math.round((k * (sorted.length - 1)) / MOST_BLOCKS)],
    );
  }

  #demands(cuts: Minute[], from: Int32Array, to: Int32Array): Demand[] {
    const { calendar } = this.reach;
    const demands = new Map<string, Demand>();
    for (const { task, kind, minutes, hands } of this.#asks) {
      const start = Math.max(from[task], this.problem.now);
      const end = to[task];
      let first = 0;
      while (first + 2 < cuts.length && cuts[first + 1] <= start) first++;
      let last = first + 1;
      while (last + 1 < cuts.length && cuts[last] < end) last++;
      const key = `${kind} ${first} ${last}`;
      let demand = demands.get(key);
      if (!demand)
        demands.set(
          key,
          (demand = { kind, minutes: 0, first, most: new Array<number>(last - first).fill(0) }),
        );
      demand.minutes += Math.floor(minutes + 1e-6);
      for (let b = first; b < last; b++) {
        demand.most[b - first] +=
          hands * calendar.between(Math.max(start, cuts[b]), Math.min(end, cuts[b + 1]));
      }
    }
    return [...demands.values()];
  }

  /** Minutes of each class in each block, caps of turnouts and weeks kept. */
  #supply(cuts: Minute[]): Float64Array {
    const blocks = cuts.length - 1;
    const supply = new Float64Array(this.#classes.length * blocks);
    this.#classes.forEach((one, c) => {
      for (const p of one.people) {
        const { minutesAWeek, minutesATurnout } = this.problem.people[p];
        let b = 0;
        let week = -1;
        let turnout = -1;
        let inWeek = 0;
        let inTurnout = 0;
        for (const piece of this.#pieces[p]) {
          if (piece.to <= cuts[0]) continue;
          while (b < blocks && cuts[b + 1] <= piece.from) {
            b++;
            week = turnout = -1;
          }
          for (let k = b; k < blocks && cuts[k] < piece.to; k++) {
            if (k !== b || piece.week !== week) [week, inWeek] = [piece.week, 0];
            if (k !== b || piece.turnout !== turnout) [turnout, inTurnout] = [piece.turnout, 0];
            b = k;
            let minutes = Math.min(piece.to, cuts[k + 1]) - Math.max(piece.from, cuts[k]);
            if (minutesATurnout !== null) minutes = Math.min(minutes, minutesATurnout - inTurnout);
            if (minutesAWeek !== null) minutes = Math.min(minutes, minutesAWeek - inWeek);
            if (minutes <= 0) continue;
            inTurnout += minutes;
            inWeek += minutes;
            supply[c * blocks + k] += minutes;
          }
        }
      }
    });
    return supply;
  }
}

const MOST_BLOCKS = 24;
const WEEK = 7 * 24 * 60;

/** A kind of seat, or of further hands (skill null). */
interface Kind {
  skill: number | null;
  fit: (p: number) => boolean;
}

/** Minutes that one task asks of a kind at least, and how many hands at a time at most. */
interface Ask {
  task: number;
  kind: number;
  minutes: number;
  hands: number;
}

interface Class {
  people: number[];
  kinds: number[];
}

interface Demand {
  kind: number;
  minutes: number;
  /** First block, and the most minutes that each block from there on can take. */
  first: number;
  most: number[];
}

/** A part of a stay within one week. */
interface Piece {
  from: Minute;
  to: Minute;
  week: number;
  turnout: number;
}

function asksOf(problem: Problem, reach: Reach, kinds: Map<string, Kind>): Ask[] {
  const asks: Ask[] = [];
  const numbers = new Map<string, number>();
  const cleared = (p: number, wanted: number[]) =>
    wanted.every((c) => problem.people[p].clearances.some((held) => held.clearance === c));
  const kindOf = (key: string, kind: Kind): number => {
    let number = numbers.get(key);
    if (number === undefined) {
      numbers.set(key, (number = numbers.size));
      kinds.set(key, kind);
    }
    return number;
  };
  problem.tasks.forEach((task, i) => {
    if (task.progress.kind === 'done' || (reach.lies[i] !== ONE_GO && reach.lies[i] !== SPLIT)) return;
    const minutes = reach.leastMinutes(i);
    let seated = 0;
    for (const seat of task.seats) {
      const { skill, level, count } = seat;
      const wanted = [...task.clearances, ...seat.clearances];
      const fit = (p: number) => problem.people[p].levels[skill] >= level && cleared(p, wanted);
      const kind = kindOf(JSON.stringify([skill, level, wanted]), { skill, fit });
      asks.push({ task: i, kind, minutes: count * minutes, hands: count });
      seated += count;
    }
    const least = Math.max(task.crew.min, seated) * minutes;
    const whole = task.effort.kind === 'work' ? Math.max(task.effort.personMinutes, least) : least;
    const more = whole - seated * minutes;
    if (more < 1 || task.crew.max === 0) return;
    const kind = kindOf(JSON.stringify(task.clearances), {
      skill: null,
      fit: (p) => cleared(p, task.clearances),
    });
    asks.push({ task: i, kind, minutes: more, hands: task.crew.max });
  });
  return asks;
}

function classesOf(problem: Problem, kinds: Kind[]): Class[] {
  const classes = new Map<string, Class>();
  problem.people.forEach((_, p) => {
    const fit = kinds.flatMap((kind, k) => (kind.fit(p) ? [k] : []));
    const key = fit.join();
    let one = classes.get(key);
    if (!one) classes.set(key, (one = { people: [], kinds: fit }));
    one.people.push(p);
  });
  return [...classes.values()].filter((one) => one.kinds.length > 0);
}

function piecesOf(problem: Problem, p: number): Piece[] {
  const pieces: Piece[] = [];
  const stays = problem.people[p].stays.filter((stay) => stay.showUp > 0).sort((a, b) => a.from - b.from);
  for (const { turnout, from, to } of stays) {
    for (let start = Math.max(from, problem.now); start < to;) {
      const week = Math.floor(start / WEEK);
      const end = Math.min(to, (week + 1) * WEEK);
      pieces.push({ from: start, to: end, week, turnout });
      start = end;
    }
  }
  return pieces;
}
