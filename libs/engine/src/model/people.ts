import type { Minute, Problem, Seat, Task } from '../problem.js';
import { EVER, NEVER } from '../calendar.js';

/**
 * People as bits. A set of people is `words` 32-bit integers; person `rank` r is bit r % 32 of word r / 32.
 *
 * Ranks run from the least scarce person to the scarcest, so that "take the lowest bits first" leaves rare skills
 * free. Scarcity of a person: over the skills they hold, minutes that tasks ask of the skill over minutes of all
 * people who hold it.
 */
export interface Crowd {
  count: number;
  words: number;
  /** Person of a rank, and rank of a person. */
  person: Int32Array;
  rank: Int32Array;
  /** Caps by rank, in minutes; NEVER where there is none. */
  weekCap: Int32Array;
  turnoutCap: Int32Array;
  /** Those with any cap. */
  capped: Int32Array;
  anyCapped: boolean;
  gates: Gate[];
}

/** A set of clearances to be held together; by rank the first minute at which it counts and the minute it stops. */
interface Gate {
  from: Int32Array;
  till: Int32Array;
  /** False when whoever passes it once always passes it: nothing to look up while planning. */
  lapses: boolean;
}

/** What a task asks of its crew. Tasks that ask the same share one. */
export interface Need {
  /** Fewest hands that may start, seats included. */
  lean: number;
  seated: number;
  /** Who may lend a hand. */
  hands: Int32Array;
  gate: number;
  /** Scarcest seat first. */
  seats: SeatNeed[];
  /** Best level 1 in what the task seats: counts as a learner and needs somebody beside them who works alone. */
  learners: Int32Array;
  alone: Int32Array;
  anyLearner: boolean;
  /** Every seat is of one skill for one person and nothing else is asked: the first fit is the right one. */
  simple: boolean;
}

export interface SeatNeed {
  seat: number;
  count: number;
  able: Int32Array;
  gate: number;
}

export function emptySet(words: number): Int32Array {
  return new Int32Array(words);
}

export function put(set: Int32Array, rank: number): void {
  set[rank >> 5] |= 1 << (rank & 31);
}

export function has(set: Int32Array, rank: number, offset = 0): boolean {
  return (set[offset + (rank >> 5)] & (1 << (rank & 31))) !== 0;
}

/** Number of bits set in one word. */
export function bits(word: number): number {
  let v = word - ((word >>> 1) & 0x55555555);
  v = (v & 0x33333333) + ((v >>> 2) & 0x33333333);
  return (((v + (v >>> 4)) & 0x0f0f0f0f) * 0x01010101) >>> 24;
}

/** Ranks and caps; gates are added as needs are made. */
export function crowdOf(problem: Problem): Crowd {
  const count = problem.people.length;
  const words = Math.max(1, Math.ceil(count / 32));
  const scarcity = scarcities(problem);
  const order = Array.from({ length: count }, (_, p) => p);
  order.sort((a, b) => scarcity[a] - scarcity[b] || a - b);
  const person = Int32Array.from(order);
  const rank = new Int32Array(count);
  const weekCap = new Int32Array(count).fill(NEVER);
  const turnoutCap = new Int32Array(count).fill(NEVER);
  const capped = emptySet(words);
  let anyCapped = false;
  order.forEach((p, r) => {
    rank[p] = r;
    const { minutesAWeek, minutesATurnout } = problem.people[p];
    if (minutesAWeek !== null) weekCap[r] = minutesAWeek;
    if (minutesATurnout !== null) turnoutCap[r] = minutesATurnout;
    if (minutesAWeek !== null || minutesATurnout !== null) {
      put(capped, r);
      anyCapped = true;
    }
  });
  return { count, words, person, rank, weekCap, turnoutCap, capped, anyCapped, gates: [] };
}

export function scarcities(problem: Problem): Float64Array {
  const skills = problem.skills.length;
  const asked = new Float64Array(skills * 5);
  const given = new Float64Array(skills * 5);
  for (const task of problem.tasks) {
    if (task.progress.kind === 'done') continue;
    const minutes = seatMinutes(task);
    for (const seat of task.seats) asked[seat.skill * 5 + seat.level] += minutes * seat.count;
  }
  for (const person of problem.people) {
    const minutes = person.stays.reduce((sum, stay) => sum + (stay.showUp > 0 ? stay.to - stay.from : 0), 0);
    person.levels.forEach((level, skill) => {
      for (let l = 1; l <= level; l++) given[skill * 5 + l] += minutes;
    });
  }
  return Float64Array.from(problem.people, (person) =>
    person.levels.reduce((sum, level, skill) => {
      let most = 0;
      for (let l = 1; l <= level; l++) {
        const at = skill * 5 + l;
        if (given[at] > 0) most += asked[at] / given[at];
      }
      return sum + most;
    }, 0),
  );
}

function seatMinutes(task: Task): number {
  switch (task.effort.kind) {
    case 'work':
      return task.effort.personMinutes / Math.max(1, task.crew.efficient);
    case 'fixed':
      return task.effort.minutes;
    default:
      return 0;
  }
}

/** Makes needs, each only once, and the gates that they name. */
export class Needs {
  readonly list: Need[] = [];
  readonly #problem: Problem;
  readonly #crowd: Crowd;
  readonly #mirror: Minute | null;
  readonly #known = new Map<string, number>();
  readonly #gates = new Map<string, number>();

  /** @param mirror the minute that time is turned round at, or null when it runs forward. */
  constructor(problem: Problem, crowd: Crowd, mirror: Minute | null) {
    this.#problem = problem;
    this.#crowd = crowd;
    this.#mirror = mirror;
    // Gate 0 asks for nothing.
    this.#gate([]);
  }

  of(task: Task): number {
    const key = JSON.stringify([task.crew.min, task.seats, task.clearances]);
    const known = this.#known.get(key);
    if (known !== undefined) return known;
    const index = this.list.length;
    this.list.push(this.#make(task));
    this.#known.set(key, index);
    return index;
  }

  #make(task: Task): Need {
    const { words, count, person } = this.#crowd;
    const people = this.#problem.people;
    const gate = this.#gate(task.clearances);
    const hands = this.#passing(gate);
    const seats = task.seats
      .map((seat, index) => this.#seat(task, seat, index))
      .filter((seat) => seat.count > 0)
      .sort((a, b) => size(a.able) / a.count - size(b.able) / b.count || a.seat - b.seat);
    const learners = emptySet(words);
    const alone = emptySet(words);
    let anyLearner = false;
    for (let r = 0; r < count; r++) {
      const levels = people[person[r]].levels;
      const best = task.seats.length === 0 ? 2 : Math.max(...task.seats.map((seat) => levels[seat.skill]));
      if (best >= 2) put(alone, r);
      if (best === 1) {
        put(learners, r);
        anyLearner = true;
      }
    }
    const seated = seats.reduce((sum, seat) => sum + seat.count, 0);
    const gates = this.#crowd.gates;
    const lapses = gates[gate].lapses || seats.some((seat) => gates[seat.gate].lapses);
    return {
      lean: Math.max(task.crew.min, seated),
      seated,
      hands,
      gate,
      seats,
      learners,
      alone,
      anyLearner,
      simple: !lapses && !anyLearner,
    };
  }

  #seat(task: Task, seat: Seat, index: number): SeatNeed {
    const gate = this.#gate([...task.clearances, ...seat.clearances]);
    const able = this.#passing(gate);
    for (let r = 0; r < this.#crowd.count; r++) {
      const level = this.#problem.people[this.#crowd.person[r]].levels[seat.skill];
      if (level < seat.level) able[r >> 5] &= ~(1 << (r & 31));
    }
    return { seat: index, count: seat.count, able, gate };
  }

  #gate(clearances: number[]): number {
    const wanted = [...new Set(clearances)].sort((a, b) => a - b);
    const key = wanted.join(' ');
    const known = this.#gates.get(key);
    if (known !== undefined) return known;
    const { count, person } = this.#crowd;
    const from = new Int32Array(count).fill(EVER);
    const till = new Int32Array(count).fill(NEVER);
    let lapses = false;
    for (let r = 0; r < count; r++) {
      for (const clearance of wanted) {
        let end: Minute = EVER;
        for (const held of this.#problem.people[person[r]].clearances) {
          if (held.clearance === clearance) end = Math.max(end, held.until === null ? NEVER : held.until + 1);
        }
        till[r] = Math.min(till[r], end);
      }
      if (till[r] > EVER && till[r] < NEVER) lapses = true;
      if (this.#mirror !== null && till[r] > EVER) {
        from[r] = till[r] === NEVER ? EVER : this.#mirror - till[r];
        till[r] = NEVER;
      }
    }
    const index = this.#crowd.gates.length;
    this.#crowd.gates.push({ from, till, lapses });
    this.#gates.set(key, index);
    return index;
  }

  #passing(gate: number): Int32Array {
    const set = emptySet(this.#crowd.words);
    const { till } = this.#crowd.gates[gate];
    for (let r = 0; r < this.#crowd.count; r++) if (till[r] > EVER) put(set, r);
    return set;
  }
}

/** People in a set. */
export function size(set: Int32Array): number {
  let sum = 0;
  for (const word of set) sum += bits(word);
  return sum;
}
