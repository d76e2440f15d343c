import { EVER, NEVER, type WorkCalendar } from '../calendar.js';
import { ANYWHERE, AT_THE_YARD, ELAPSED, liesOf, ONE_GO, type Places } from '../lengths.js';
import type { Minute, Problem } from '../problem.js';
import { Presences, type Presence } from './presence.js';

/**
 * Places tasks where no plan can beat them: each as if everybody at the yard who is fit for it were free for it.
 *
 * The start and the end of a task are bounded apart: a lean crew may start early and end late, a full one only ends
 * early. Only a task of a set length in one piece ties the two together. Set-up is counted at the slowest rate.
 */
export class Reach implements Places {
  readonly lies: Uint8Array;
  /** Work left: person-minutes for work, minutes else. */
  readonly amount: Float64Array;
  /** True where the task lies in one piece of known length. */
  readonly rigid: Uint8Array;
  readonly presence: Presence[];
  start: Minute = 0;
  end: Minute = 0;
  readonly #setUp: Int32Array;

  constructor(
    problem: Problem,
    readonly calendar: WorkCalendar,
  ) {
    const n = problem.tasks.length;
    const presences = new Presences(problem);
    this.lies = new Uint8Array(n);
    this.amount = new Float64Array(n);
    this.rigid = new Uint8Array(n);
    this.#setUp = new Int32Array(n);
    this.presence = problem.tasks.map((task, i) => {
      const { effort } = task;
      this.amount[i] =
        effort.kind === 'hold' ? 0 : effort.kind === 'work' ? effort.personMinutes : effort.minutes;
      this.lies[i] = liesOf(task, Math.ceil(this.amount[i]));
      this.rigid[i] = effort.kind === 'fixed' && task.oneGo ? 1 : 0;
      this.#setUp[i] = task.setUpMinutes;
      return presences.of(task);
    });
  }

  /** Fewest minutes that the task takes, set-up left out. */
  leastMinutes(i: number): number {
    const { fastest } = this.presence[i];
    return this.lies[i] === ELAPSED || fastest === 0 ? this.amount[i] : ceil(this.amount[i] / fastest);
  }

  early(i: number, from: Minute, to: Minute): void {
    if (from >= NEVER || to >= NEVER) {
      this.start = this.end = NEVER;
      return;
    }
    const amount = this.amount[i];
    const presence = this.presence[i];
    switch (this.lies[i]) {
      case ANYWHERE:
        this.start = this.end = from > to ? from : to;
        return;
      case ELAPSED:
        this.start = from > to - amount ? from : to - amount;
        this.end = this.start + amount;
        return;
      case AT_THE_YARD: {
        const t = from > to ? from : to;
        const k = firstAtLeast(presence.sayTo, t);
        this.start = this.end = k === presence.sayTo.length ? NEVER : Math.max(t, presence.sayFrom[k]);
        return;
      }
      case ONE_GO:
        if (this.rigid[i]) {
          this.start = this.#fit(presence, from > to - amount ? from : to - amount, amount);
          this.end = this.start >= NEVER ? NEVER : this.start + amount;
          return;
        }
        this.start = this.#fit(presence, from, amount);
        this.end = this.start >= NEVER ? NEVER : this.#fitEnd(presence, from, to, amount);
        return;
      default: {
        const k = firstAtLeast(presence.to, from + 1);
        if (k === presence.to.length) {
          this.start = this.end = NEVER;
          return;
        }
        this.start = from > presence.from[k] ? from : presence.from[k];
        const end =
          this.#setUp[i] === 0 ? this.#end(presence, k, amount) : this.#endWithSetUp(presence, i, amount);
        this.end = end >= to ? end : endFrom(presence, to);
      }
    }
  }

  late(i: number, from: Minute, to: Minute): void {
    const amount = this.amount[i];
    const presence = this.presence[i];
    switch (this.lies[i]) {
      case ANYWHERE:
        this.start = this.end = from < to ? from : to;
        return;
      case ELAPSED:
        this.end = from + amount < to ? from + amount : to;
        this.start = this.end - amount;
        return;
      case AT_THE_YARD: {
        const t = from < to ? from : to;
        const k = firstAtLeast(presence.sayFrom, t + 1) - 1;
        this.start = this.end = k < 0 ? EVER : Math.min(t, presence.sayTo[k]);
        return;
      }
      case ONE_GO: {
        if (this.rigid[i]) {
          const whole = from + amount < to ? from + amount : to;
          this.start = this.#fitBefore(presence, whole, amount);
          this.end = this.start <= EVER ? EVER : this.start + amount;
          return;
        }
        const start = this.#fitBefore(presence, to, amount);
        this.start = start < from ? start : startUpTo(presence, from);
        this.end = start <= EVER ? EVER : endUpTo(presence, to);
        return;
      }
      default: {
        const start = this.#startWithSetUp(presence, i, to, amount);
        this.start = start < from ? start : startUpTo(presence, from);
        this.end = endUpTo(presence, to);
      }
    }
  }

  /** Earliest start, t at least, with room in one run. */
  #fit({ runFrom, runTo, runRate }: Presence, t: Minute, amount: number): Minute {
    for (let k = firstAtLeast(runTo, t + 1); k < runTo.length; k++) {
      const start = t > runFrom[k] ? t : runFrom[k];
      if (start + ceil(amount / runRate[k]) <= runTo[k]) return start;
    }
    return NEVER;
  }

  /** Earliest end, `to` at least, of a run of work that starts at `from` or later. */
  #fitEnd({ runFrom, runTo, runRate }: Presence, from: Minute, to: Minute, amount: number): Minute {
    let best: Minute = NEVER;
    for (let k = firstAtLeast(runTo, from + 1); k < runTo.length && runFrom[k] < best; k++) {
      const length = ceil(amount / runRate[k]);
      const start = from > runFrom[k] ? from : runFrom[k];
      const end = start + length > to ? start + length : to;
      if (end <= runTo[k] && end < best) best = end;
    }
    return best;
  }

  #fitBefore({ runFrom, runTo, runRate }: Presence, t: Minute, amount: number): Minute {
    let best: Minute = EVER;
    for (let k = firstAtLeast(runFrom, t) - 1; k >= 0 && runTo[k] > best; k--) {
      const start = (t < runTo[k] ? t : runTo[k]) - ceil(amount / runRate[k]);
      if (start >= runFrom[k] && start > best) best = start;
    }
    return best;
  }

  /** When so much work is done if it goes on from `this.start`, in slice k, whenever it can. */
  #end(presence: Presence, k: number, amount: number): Minute {
    const goal = presence.done[k] + (this.start - presence.from[k]) * presence.rate[k] + amount;
    const last = firstAtLeast(presence.done, goal - 1e-6);
    if (last >= presence.done.length) return NEVER;
    const slice = last - 1;
    return presence.from[slice] + ceil((goal - presence.done[slice]) / presence.rate[slice]);
  }

  #endWithSetUp(presence: Presence, i: number, amount: number): Minute {
    const { first, from, to, rate, slowest, fastest } = presence;
    const setUp = this.#setUp[i];
    let left = amount;
    let begun = false;
    for (let w = this.calendar.turnoutAfter(this.start); w < this.calendar.count; w++) {
      const lost = begun ? setUp * slowest : 0;
      let room = -lost;
      for (let k = first[w]; k < first[w + 1]; k++) {
        const start = this.start > from[k] ? this.start : from[k];
        if (start >= to[k]) continue;
        const gain = (to[k] - start) * rate[k];
        if (room + gain >= left - 1e-6) return start + ceil((left - room) / rate[k]);
        room += gain;
      }
      if (room > 0) left -= room;
      // A start so small that it might only buy set-up counts, and what follows is not charged for it.
      if (room > setUp * fastest) begun = true;
    }
    return NEVER;
  }

  #startWithSetUp(presence: Presence, i: number, t: Minute, amount: number): Minute {
    const { first, from, to, rate, slowest } = presence;
    const { calendar } = this;
    const lost = this.#setUp[i] * slowest;
    let left = amount;
    let w = calendar.turnoutAfter(t - 1);
    if (w === calendar.count) w--;
    for (; w >= 0; w--) {
      let room = 0;
      for (let k = first[w + 1] - 1; k >= first[w]; k--) {
        const end = t < to[k] ? t : to[k];
        if (end <= from[k]) continue;
        const gain = (end - from[k]) * rate[k];
        if (room + gain >= left - 1e-6) return end - ceil((left - room) / rate[k]);
        room += gain;
      }
      if (room > lost) left -= room - lost;
    }
    return EVER;
  }
}

/** First index whose value is at least so much, in a rising list. */
function firstAtLeast(values: Int32Array | Float64Array, value: number): number {
  let low = 0;
  let high = values.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (values[middle] >= value) high = middle;
    else low = middle + 1;
  }
  return low;
}

function ceil(minutes: number): number {
  return Math.ceil(minutes - 1e-6);
}

/** First minute, t at least, at which a piece of work can end. */
function endFrom({ from, to }: Presence, t: Minute): Minute {
  const k = firstAtLeast(to, t);
  if (k === to.length) return NEVER;
  return t > from[k] ? t : from[k] + 1;
}

/** Last minute, t at most, at which a piece of work can end. */
function endUpTo({ from, to }: Presence, t: Minute): Minute {
  const k = firstAtLeast(from, t) - 1;
  if (k < 0) return EVER;
  return t < to[k] ? t : to[k];
}

/** Last minute, t at most, at which a piece of work can start. */
function startUpTo({ from, to }: Presence, t: Minute): Minute {
  const k = firstAtLeast(from, t + 1) - 1;
  if (k < 0) return EVER;
  return t < to[k] ? t : to[k] - 1;
}
