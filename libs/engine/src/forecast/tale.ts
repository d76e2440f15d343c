import { NEVER } from '../calendar.js';
import { Kind } from '../model/kind.js';
import { scarcities } from '../model/people.js';
import type { Minute } from '../problem.js';
import type { Beliefs } from './beliefs.js';
import type { Course } from './course.js';
import type { ChainTime, DecisiveWeek, Driver, Forecast, Percentile } from './forecast-shape.js';
import type { Luck } from './luck.js';
import type { Replay } from './replay.js';
import { Held } from './standing.js';

/** Hears of each future and tells what they have in common. */
export class Tale {
  readonly #course: Course;
  readonly #ready: Int32Array;
  #futures = 0;
  readonly #critical: Int32Array;
  readonly #done: Int32Array;
  readonly #startSum: Float64Array;
  readonly #endSum: Float64Array;
  /** What the chain spends its time on while a task is done. */
  readonly #own: Int32Array;
  readonly #chain = new Map<number, number>();
  #chainSum = 0;
  readonly #late: number[];
  readonly #rates: Covariance;
  readonly #people: Covariance;
  readonly #lates: Covariance;
  readonly #weeks: Covariance;
  readonly #weekOfTurnout: Int32Array;
  /** The first minute of each week, from the one of now on. */
  readonly #weekFrom: readonly Minute[];
  readonly #weekNow: Float64Array;
  readonly #weight: Float64Array;

  constructor(
    course: Course,
    beliefs: Beliefs,
    { futures, weeks }: { futures: number; weeks: readonly Minute[] | undefined },
  ) {
    const { model } = course;
    const { n, problem, calendar, now } = model;
    this.#course = course;
    this.#ready = new Int32Array(futures);
    this.#critical = new Int32Array(n);
    this.#done = new Int32Array(n);
    this.#startSum = new Float64Array(n);
    this.#endSum = new Float64Array(n);
    this.#own = Int32Array.from(problem.tasks, ({ seats }, i) => {
      const scarcest = model.need[i] < 0 ? undefined : model.needs[model.need[i]].seats.at(0);
      if (scarcest !== undefined) return code('skill', seats[scarcest.seat].skill);
      return model.kind[i] === Kind.Elapsed || model.kind[i] === Kind.Mark ? ELAPSED : code('crew', 0);
    });
    this.#late = beliefs.tasks.flatMap(({ late }, i) =>
      late !== null && model.kind[i] !== Kind.Done ? [i] : [],
    );
    this.#rates = new Covariance(beliefs.rates.length);
    this.#people = new Covariance(problem.people.length);
    this.#lates = new Covariance(this.#late.length);
    const last = calendar.count > 0 ? calendar.start[calendar.count - 1] : now;
    const from = weeks ?? evenWeeks(now, last);
    this.#weekFrom = from.filter((start, k) => start <= last && (from[k + 1] ?? NEVER) > now);
    this.#weekOfTurnout = Int32Array.from(problem.turnouts, (_, w) =>
      this.#weekFrom.findLastIndex((start) => start <= calendar.start[w]),
    );
    this.#weekNow = new Float64Array(this.#weekFrom.length);
    this.#weeks = new Covariance(this.#weekNow.length);
    this.#weight = scarcities(problem);
  }

  hear(luck: Luck, replay: Replay): void {
    const { n, horizon } = this.#course.model;
    const { start, end } = replay.standing;
    this.#ready[this.#futures++] = replay.ready;
    for (let i = 0; i < n; i++) {
      if (end[i] === NEVER) continue;
      this.#done[i]++;
      this.#startSum[i] += start[i];
      this.#endSum[i] += end[i];
    }
    this.#trace(replay);
    const ready = Math.min(replay.ready, horizon);
    this.#rates.add(luck.pace, ready);
    this.#people.add(luck.came, ready);
    if (this.#late.length > 0)
      this.#lates.add(
        this.#late.map((i) => luck.late[i]),
        ready,
      );
    this.#weeks.add(luck.weeks(this.#weekOfTurnout, this.#weekNow, this.#weight), ready);
  }

  /** Walks back along what each start waited for. */
  #trace({ standing, last }: Replay): void {
    const { start, end, driver, freeFrom, heldBy, heldIndex } = standing;
    const { now } = this.#course.model;
    let until = last >= 0 ? end[last] : now;
    for (let i = last, steps = 0; i >= 0 && steps < start.length; i = driver[i], steps++) {
      this.#critical[i]++;
      const from = Math.max(now, driver[i] >= 0 ? Math.min(end[driver[i]], until) : now);
      const begun = Math.min(until, Math.max(from, start[i]));
      const free = Math.min(begun, Math.max(from, freeFrom[i]));
      const own = this.#own[i];
      this.#spend(own, begun, until);
      this.#spend(ELAPSED, from, free);
      if (heldBy[i] === Held.Tool) this.#spend(code('tool', heldIndex[i]), free, begun);
      else if (heldBy[i] === Held.Opening) this.#spend(OPENING, free, begun);
      else if (heldBy[i] === Held.Calendar) this.#spend(CALENDAR, free, begun);
      else this.#spend(own, free, begun);
      until = from;
      if (until <= now) break;
    }
  }

  #spend(what: number, from: Minute, until: Minute): void {
    if (until <= from) return;
    const minutes = this.#course.model.calendar.between(from, until);
    if (minutes <= 0) return;
    this.#chain.set(what, (this.#chain.get(what) ?? 0) + minutes);
    this.#chainSum += minutes;
  }

  tell(): Forecast {
    const { problem } = this.#course.model;
    const count = this.#futures;
    const sorted = this.#ready.slice(0, count).sort();
    const at = (k: number): Minute | null => {
      const t = sorted[Math.max(0, Math.min(count - 1, k))];
      return t === NEVER ? null : t;
    };
    const percentile = (p: number): Percentile => {
      const reach = 1.96 * Math.sqrt(count * p * (1 - p));
      const rank = count * p;
      return {
        minute: at(Math.ceil(rank - 1e-9) - 1),
        from: at(Math.floor(rank - reach) - 1),
        to: at(Math.ceil(rank + reach)),
      };
    };
    const oddsBy = (t: Minute) => {
      let by = 0;
      while (by < count && sorted[by] <= t) by++;
      const odds = by / count;
      return { odds, error: Math.sqrt((odds * (1 - odds)) / count) };
    };
    let never = 0;
    while (never < count && sorted[count - 1 - never] === NEVER) never++;
    return {
      format: 'ribband-forecast/1',
      futures: count,
      ready: { p50: percentile(0.5), p80: percentile(0.8), p95: percentile(0.95) },
      slots: problem.aim.slots.map((slot) => ({ at: slot, ...oddsBy(slot) })),
      gate: oddsBy(problem.aim.gate),
      never: never / count,
      spread: Array.from({ length: 100 }, (_, k) => at(Math.floor(((k + 0.5) / 100) * count))),
      tasks: problem.tasks.map((_, i) => ({
        criticality: this.#critical[i] / count,
        start: this.#done[i] > 0 ? Math.round(this.#startSum[i] / this.#done[i]) : null,
        end: this.#done[i] > 0 ? Math.round(this.#endSum[i] / this.#done[i]) : null,
      })),
      weeks: this.#decisive(),
      chain: this.#spent(),
      drivers: this.#drivers(),
    };
  }

  #decisive(): DecisiveWeek[] {
    return this.#weeks
      .shares()
      .map(({ share }, k) => ({ from: this.#weekFrom[k], share }))
      .filter(({ share }) => share > 0);
  }

  #spent(): ChainTime[] {
    return [...this.#chain]
      .map(([what, minutes]) => {
        const kind = KINDS[what & 7];
        const index = kind === 'skill' || kind === 'tool' ? what >> 3 : null;
        return { kind, index, share: minutes / this.#chainSum };
      })
      .sort((a, b) => b.share - a.share);
  }

  #drivers(): Driver[] {
    const list = (kind: Driver['kind'], of: Covariance, index: (k: number) => number): Driver[] =>
      of.shares().map(({ share, minutes }, k) => ({ kind, index: index(k), share, minutes }));
    return [
      ...list('rate', this.#rates, (k) => k),
      ...list('person', this.#people, (k) => k),
      ...list('late', this.#lates, (k) => this.#late[k]),
    ]
      .filter(({ share }) => share > 0)
      .sort((a, b) => b.share - a.share);
  }
}

const WEEK = 10_080;

function evenWeeks(now: Minute, last: Minute): Minute[] {
  const first = Math.floor(now / WEEK);
  const count = Math.max(0, Math.floor(last / WEEK) - first + 1);
  return Array.from({ length: count }, (_, k) => (first + k) * WEEK);
}

const KINDS = ['skill', 'crew', 'tool', 'opening', 'elapsed', 'calendar'] as const;

function code(kind: (typeof KINDS)[number], index: number): number {
  return (index << 3) | KINDS.indexOf(kind);
}

const ELAPSED = code('elapsed', 0);
const OPENING = code('opening', 0);
const CALENDAR = code('calendar', 0);

/** How several figures go with one other, summed up as they come. */
class Covariance {
  readonly #first: Float64Array;
  readonly #sum: Float64Array;
  readonly #square: Float64Array;
  readonly #product: Float64Array;
  #firstY = 0;
  #sumY = 0;
  #squareY = 0;
  #count = 0;

  constructor(size: number) {
    this.#first = new Float64Array(size);
    this.#sum = new Float64Array(size);
    this.#square = new Float64Array(size);
    this.#product = new Float64Array(size);
  }

  add(x: ArrayLike<number>, y: number): void {
    const first = this.#first;
    // Sums are taken about the first values, so that little is lost in large numbers.
    if (this.#count++ === 0) {
      for (let k = 0; k < first.length; k++) first[k] = x[k];
      this.#firstY = y;
    }
    const dy = y - this.#firstY;
    this.#sumY += dy;
    this.#squareY += dy * dy;
    for (let k = 0; k < first.length; k++) {
      const dx = x[k] - first[k];
      this.#sum[k] += dx;
      this.#square[k] += dx * dx;
      this.#product[k] += dx * dy;
    }
  }

  /** Share of the other's variance that goes with each, less what chance alone would give; minutes a deviation. */
  shares(): { share: number; minutes: number }[] {
    const n = this.#count;
    const varY = this.#squareY / n - (this.#sumY / n) ** 2;
    return Array.from(this.#first, (_, k) => {
      const varX = this.#square[k] / n - (this.#sum[k] / n) ** 2;
      if (!(varX > 1e-12) || !(varY > 1e-12)) return { share: 0, minutes: 0 };
      const cov = this.#product[k] / n - (this.#sum[k] / n) * (this.#sumY / n);
      const share = (cov * cov) / (varX * varY);
      // Below twice the error of its root it is no more than chance.
      return { share: share > 4 / n ? share : 0, minutes: cov / Math.sqrt(varX) };
    });
  }
}
