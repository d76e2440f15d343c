import { Kind } from '../model/kind.js';
import { normalAt } from '../normal.js';
import type { Beliefs, Gamma } from './beliefs.js';
import { mix, NORMAL, saltOf, TABLE_SHIFT, Tables } from './chance.js';
import type { Course } from './course.js';

/**
 * One future's luck: who comes to each turnout, how fast each kind of work goes, what is late, what is sent back.
 * Everything follows from the seed, the future's number and the name of the thing, never from what was drawn before.
 *
 * Coming together: a person comes when sqrt(r) Z + sqrt(1 - r) E lies below the normal quantile of their chance, Z the
 * turnout's luck and E their own (one common factor, as in Vasicek 1987): chances stay what they are, only their
 * togetherness r changes.
 */
export class Luck {
  /** Person-minutes of a work, or minutes, by task in this future. */
  readonly amount: Float64Array;
  /** Minutes by which a task is late in this future. */
  readonly late: Int32Array;
  /** Pace of each kind over its mean in this future. */
  readonly pace: Float64Array;
  /** Person-minutes to be done again once shown; 0 where the say-so is given. */
  readonly again: Float64Array;
  /** Who is there at the turnout drawn last, as bits by rank; the stays that came but not for the whole of it. */
  readonly here: Int32Array;
  partCount = 0;
  readonly part: Int32Array;
  /** How often each person came in this future up to the course's best, by index. */
  readonly came: Int32Array;

  readonly #course: Course;
  readonly #beliefs: Beliefs;
  #salt = 0;
  readonly #countedTurnouts: number;
  readonly #cameStay: Int32Array;
  #cameCount = 0;
  readonly #taskSalt: Int32Array;
  readonly #rateSalt: Int32Array;
  readonly #tables: Float64Array[];
  readonly #meanOverPlanned: Float64Array;
  readonly #byTurnout: (Float64Array | null)[];
  readonly #own: (Float64Array | null)[];
  /** Of tasks with three points: a Beta over 0..1, which many have in common, and its ends. */
  readonly #points: (Float64Array | null)[];
  readonly #low: Float64Array;
  readonly #range: Float64Array;
  readonly #rateOf: Int32Array;
  readonly #meanPace: Float64Array;
  readonly #again: Float64Array;
  /** What this turnout does to each rate, as far as asked: 0 where not. */
  readonly #thisTurnout: Float64Array;
  readonly #lateness: (Float64Array | null)[];
  readonly #showUp: (Float64Array | null)[];
  readonly #personSalt: Int32Array;
  readonly #threshold: Float64Array;
  readonly stays: Stays;
  readonly #turnoutSalt: Int32Array;
  readonly #shared: number;
  readonly #alone: number;

  /** @param tables those of another forecast may be given, to make none twice */
  constructor(course: Course, beliefs: Beliefs, tables = new Tables()) {
    const { model } = course;
    const { problem, n, crowd } = model;
    this.#course = course;
    this.#beliefs = beliefs;
    this.amount = new Float64Array(n);
    this.late = new Int32Array(n);
    this.pace = new Float64Array(beliefs.rates.length);
    this.again = new Float64Array(n);
    this.here = new Int32Array(crowd.words);
    this.came = new Int32Array(crowd.count);
    this.#taskSalt = Int32Array.from(problem.tasks, (task) => saltOf(task.id, 1));
    this.#rateSalt = Int32Array.from(beliefs.rates, (rate) => saltOf(rate.id, 2));
    this.#tables = beliefs.rates.map(({ pace }) => tables.gamma(pace));
    this.#byTurnout = beliefs.rates.map(({ byTurnout }) => tables.spread(byTurnout));
    this.#own = beliefs.tasks.map(({ own }) => tables.spread(own));
    this.#points = beliefs.tasks.map(({ points }) => {
      if (points === null || points.high <= points.low) return null;
      const { low, likely, high } = points;
      const a = 1 + (4 * (likely - low)) / (high - low);
      const b = 1 + (4 * (high - likely)) / (high - low);
      return tables.beta(a, b);
    });
    this.#low = Float64Array.from(beliefs.tasks, ({ points }) => points?.low ?? 0);
    this.#range = Float64Array.from(beliefs.tasks, ({ points }) => (points ? points.high - points.low : 0));
    this.#rateOf = Int32Array.from(beliefs.tasks, ({ rate }) => rate ?? -1);
    this.#meanPace = Float64Array.from(beliefs.rates, ({ pace }) => meanOf(pace));
    this.#again = Float64Array.from(beliefs.tasks, ({ rework }) => rework?.chance ?? -1);
    this.#thisTurnout = new Float64Array(beliefs.rates.length);
    this.#lateness = beliefs.tasks.map(({ late }) =>
      late && late.chance > 0 ? tables.gamma(late.minutes) : null,
    );
    this.#meanOverPlanned = Float64Array.from(beliefs.tasks, ({ rate, plannedPace }) =>
      rate === null ? 1 : meanOf(beliefs.rates[rate].pace) / plannedPace,
    );
    this.#showUp = beliefs.showUp.map((chance) => chance && tables.betaNormal(chance));
    this.#personSalt = Int32Array.from(problem.people, (person) => saltOf(person.id, 3));
    this.#threshold = new Float64Array(problem.people.length);
    this.stays = staysOf(course, beliefs);
    this.#turnoutSalt = Int32Array.from(problem.turnouts, ({ start }) => saltOf('turnout', start));
    this.#shared = Math.sqrt(beliefs.together);
    this.#alone = Math.sqrt(1 - beliefs.together);
    // Who came is counted only up to when all could be done at best: what comes later depends on how it went.
    this.#countedTurnouts = course.best;
    this.#cameStay = new Int32Array(this.stays.person.length);
    let most = 0;
    for (let w = 0; w < problem.turnouts.length; w++)
      most = Math.max(most, this.stays.at[w + 1] - this.stays.at[w]);
    this.part = new Int32Array(most);
  }

  /** Draws what holds for a whole future. @param salt of the future */
  begin(salt: number): void {
    this.#salt = salt;
    const { rates, tasks } = this.#beliefs;
    const { kind, amount, minutes } = this.#course.model;
    for (let k = 0; k < rates.length; k++) {
      const drawn = this.#tables[k][mix(salt + this.#rateSalt[k]) >>> TABLE_SHIFT];
      this.pace[k] = drawn / this.#meanPace[k];
    }
    for (let i = 0; i < tasks.length; i++) {
      if (kind[i] === Kind.Done) continue;
      const taskSalt = salt + this.#taskSalt[i];
      const lateness = this.#lateness[i];
      if (lateness !== null) {
        const isLate = unit(mix(taskSalt ^ IS_LATE)) < (tasks[i].late?.chance ?? 0);
        this.late[i] = isLate ? Math.round(lateness[mix(taskSalt ^ LATE) >>> TABLE_SHIFT]) : 0;
      }
      if (kind[i] === Kind.Mark || kind[i] === Kind.SaySo) continue;
      let work = kind[i] === Kind.Elapsed ? minutes[i] : amount[i];
      const points = this.#points[i];
      if (points !== null) work = this.#low[i] + points[mix(taskSalt) >>> TABLE_SHIFT] * this.#range[i];
      const rate = this.#rateOf[i];
      if (rate >= 0) work /= this.pace[rate] * this.#meanOverPlanned[i];
      const own = this.#own[i];
      if (own !== null) work *= own[mix(taskSalt ^ OWN) >>> TABLE_SHIFT];
      this.amount[i] = work;
      const again = this.#again[i];
      if (again >= 0)
        this.again[i] = unit(mix(taskSalt ^ AGAIN)) < again ? (tasks[i].rework?.share ?? 0) * work : 0;
    }
    for (let p = 0; p < this.#showUp.length; p++) {
      const table = this.#showUp[p];
      this.#threshold[p] = table === null ? 0 : table[mix(salt + this.#personSalt[p]) >>> TABLE_SHIFT];
    }
    this.came.fill(0);
    this.#cameCount = 0;
  }

  /** Draws who comes to turnout w. */
  meet(w: number): void {
    const { at, person, rank, offset, whole, salt, skip } = this.stays;
    const { here } = this;
    for (let q = 0; q < here.length; q++) here[q] = 0;
    this.#thisTurnout.fill(0);
    this.partCount = 0;
    const shared = this.#shared * NORMAL[mix(this.#salt + this.#turnoutSalt[w]) >>> TABLE_SHIFT];
    for (let k = at[w]; k < at[w + 1]; k++) {
      const p = person[k];
      const own = NORMAL[mix(this.#salt + salt[k]) >>> TABLE_SHIFT];
      if (shared + this.#alone * own >= this.#threshold[p] + offset[k]) continue;
      if (w < this.#countedTurnouts) this.came[p]++;
      this.#cameStay[this.#cameCount++] = k;
      if (skip[k] !== 0) continue;
      if (whole[k] !== 0) here[rank[k] >> 5] |= 1 << (rank[k] & 31);
      else this.part[this.partCount++] = k;
    }
  }

  /** Sums a weight for everybody who came, by week; `into` is what is returned. */
  weeks(weekOfTurnout: Int32Array, into: Float64Array, weight: Float64Array): Float64Array {
    into.fill(0);
    for (let k = 0; k < this.#cameCount; k++) {
      const stay = this.#cameStay[k];
      const turnout = this.stays.turnout[stay];
      const week = weekOfTurnout[turnout];
      if (week >= 0 && turnout < this.#countedTurnouts) into[week] += weight[this.stays.person[stay]];
    }
    return into;
  }

  /** What the turnout met last, w, does to the pace of task i, over the usual. */
  ofTurnout(i: number, w: number): number {
    const rate = this.#rateOf[i];
    if (rate < 0) return 1;
    const known = this.#thisTurnout[rate];
    if (known !== 0) return known;
    const table = this.#byTurnout[rate];
    const drawn =
      table === null
        ? 1
        : table[mix(this.#salt + (this.#turnoutSalt[w] ^ this.#rateSalt[rate])) >>> TABLE_SHIFT];
    this.#thisTurnout[rate] = drawn;
    return drawn;
  }
}

const OWN = 0x2545f491;
const AGAIN = 0x1b873593;
const IS_LATE = 0x4cf5ad43;
const LATE = 0x7ed55d16;

function unit(value: number): number {
  return (value >>> 0) / 0x100000000;
}

export function meanOf({ shape, rate }: Gamma): number {
  return shape / rate;
}

/** Stays by turnout, in order of people. */
interface Stays {
  at: Int32Array;
  turnout: Int32Array;
  person: Int32Array;
  rank: Int32Array;
  from: Int32Array;
  to: Int32Array;
  whole: Uint8Array;
  /** 1 where there is no time to do anything in. */
  skip: Uint8Array;
  /** Normal quantile of the stay's chance, less that of the person's where the person's is drawn. */
  offset: Float64Array;
  salt: Int32Array;
}

function staysOf({ model }: Course, beliefs: Beliefs): Stays {
  const { problem, crowd, calendar } = model;
  const list = problem.people
    .flatMap((person, p) =>
      person.stays
        .filter((stay) => stay.showUp > 0)
        .map((stay) => ({ ...stay, p, cap: person.minutesATurnout })),
    )
    .sort((a, b) => a.turnout - b.turnout || a.p - b.p);
  const at = new Int32Array(problem.turnouts.length + 1);
  for (const { turnout } of list) at[turnout + 1]++;
  for (let w = 0; w < problem.turnouts.length; w++) at[w + 1] += at[w];
  const quantile = new Map<number, number>();
  const z = (chance: number): number => {
    let found = quantile.get(chance);
    if (found === undefined) quantile.set(chance, (found = chance >= 1 ? 1e6 : normalAt(chance)));
    return found;
  };
  // A cap of a turnout ends the stay so long after it began; work is then at most that.
  const until = list.map(({ from, to, cap }) => (cap === null ? to : Math.min(to, from + cap)));
  return {
    at,
    turnout: Int32Array.from(list, ({ turnout }) => turnout),
    person: Int32Array.from(list, ({ p }) => p),
    rank: Int32Array.from(list, ({ p }) => crowd.rank[p]),
    from: Int32Array.from(list, ({ from }) => from),
    to: Int32Array.from(until),
    whole: Uint8Array.from(list, ({ from, turnout }, k) =>
      from <= calendar.start[turnout] && until[k] >= calendar.end[turnout] ? 1 : 0,
    ),
    skip: Uint8Array.from(list, ({ from }, k) => (until[k] > from ? 0 : 1)),
    offset: Float64Array.from(list, ({ p, showUp }) => {
      const drawn = beliefs.showUp[p];
      if (showUp >= 1 || drawn === null) return z(showUp);
      const mean = drawn.a / (drawn.a + drawn.b);
      return Math.abs(mean - showUp) < 1e-9 ? 0 : z(showUp) - z(mean);
    }),
    salt: Int32Array.from(list, ({ p, turnout }) =>
      saltOf(problem.people[p].id, problem.turnouts[turnout].start),
    ),
  };
}
