import type { Model } from '../model/model.js';
import { emptySet, put, type Need } from '../model/people.js';

/** What crews are asked for, with who meets it until the end of one turnout: clearances that lapse are looked up once. */
export class NeedsAt {
  /** As the model's needs, at the turnout asked for last. */
  readonly list: readonly Need[];
  /** Sets that change from turnout to turnout: where to write, what it is without clearances, and who passes, by turnout. */
  readonly #changing: { set: Int32Array; whole: Int32Array; passing: Int32Array }[] = [];
  /** By turnout, the first one from which on the same people pass every gate. */
  readonly #since: Int32Array;
  #now = -1;

  constructor(model: Model) {
    const { needs, crowd } = model;
    const passing = crowd.gates.map((gate) => (gate.lapses ? passersOf(model, gate) : null));
    this.#since = sinceOf(
      model.calendar.count,
      crowd.words,
      passing.filter((rows) => rows !== null),
    );
    const setOf = (whole: Int32Array, gate: number): Int32Array => {
      const passers = passing[gate];
      if (passers === null) return whole;
      const set = emptySet(crowd.words);
      this.#changing.push({ set, whole, passing: passers });
      return set;
    };
    this.list = needs.map((need) => ({
      ...need,
      gate: 0,
      hands: setOf(need.hands, need.gate),
      seats: need.seats.map((seat) => ({ ...seat, gate: 0, able: setOf(seat.able, seat.gate) })),
    }));
  }

  /** From now on the needs are those of turnout w. */
  at(w: number): void {
    if (this.#since[w] === this.#now) return;
    this.#now = this.#since[w];
    for (const { set, whole, passing } of this.#changing)
      for (let q = 0; q < set.length; q++) set[q] = whole[q] & passing[w * set.length + q];
  }
}

/** A row of `words` a turnout: who passes a gate until the turnout's end. */
function passersOf(
  { calendar, crowd }: Model,
  { from, till }: { from: Int32Array; till: Int32Array },
): Int32Array {
  const rows = emptySet(calendar.count * crowd.words);
  for (let w = 0; w < calendar.count; w++) {
    const row = rows.subarray(w * crowd.words, (w + 1) * crowd.words);
    for (let r = 0; r < crowd.count; r++) {
      if (from[r] <= calendar.start[w] && till[r] >= calendar.end[w]) put(row, r);
    }
  }
  return rows;
}

function sinceOf(turnouts: number, words: number, passing: readonly Int32Array[]): Int32Array {
  const since = new Int32Array(turnouts);
  for (let w = 1; w < turnouts; w++) {
    let isSame = true;
    for (const rows of passing)
      for (let q = w * words; q < (w + 1) * words; q++) isSame &&= rows[q] === rows[q - words];
    since[w] = isSame ? since[w - 1] : w;
  }
  return since;
}
