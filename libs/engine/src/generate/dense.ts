import { NEVER } from '../calendar.js';
import { Kind } from '../model/kind.js';
import type { Model } from '../model/model.js';
import type { Minute } from '../problem.js';
import { choicesOf } from './choices.js';
import { CrewChooser } from './crew.js';

/**
 * Places blocks on one unbroken stretch of time: a table with a row for every minute. Free tools are packed side by
 * side into 31-bit words with a guard bit over each, so that one subtraction compares all of them:
 *
 *     guard  free        guard  free
 *       1    0 0 1 1       1    1 0 1 0      minus what the task needs; a guard bit that falls says "too little"
 *
 * A window is read from its end, so that the first conflict met allows the furthest jump, and no minute is read
 * twice. People are a word of bits a minute beside it; a window's crew is sought among those free all through.
 */
export class DensePlacer {
  readonly chooser: CrewChooser;
  /** Crew of each task, `words` integers each. */
  readonly crew: Int32Array;

  readonly #model: Model;
  readonly #layers: number;
  readonly #peopled: boolean;
  readonly #words: number;
  readonly #span: number;
  readonly #guard: Int32Array;
  readonly #asks: Int32Array[];
  readonly #base: Int32Array[];
  readonly #free: Int32Array[];
  readonly #folkBase: Int32Array;
  readonly #folk: Int32Array;
  readonly #since: Int32Array;
  readonly #choices: Int32Array[][];
  #used = 0;

  constructor(model: Model) {
    this.#model = model;
    this.#words = model.crowd.words;
    this.chooser = new CrewChooser(model);
    this.crew = new Int32Array(model.n * this.#words);
    this.#since = new Int32Array(this.#words);
    this.#span = model.horizon;
    this.#choices = choicesOf(model);
    const { guard, asks, base } = packed(model, this.#span);
    this.#layers = guard.length;
    this.#guard = guard;
    this.#asks = asks;
    this.#base = base;
    this.#free = base.map((layer) => layer.slice());
    this.#peopled = model.needs.length > 0;
    this.#folkBase = this.#peopled ? folk(model, this.#span) : new Int32Array(0);
    this.#folk = this.#folkBase.slice();
  }

  reset(): void {
    const used = this.#used;
    for (let l = 0; l < this.#layers; l++) this.#free[l].set(this.#base[l].subarray(0, used));
    if (this.#peopled) this.#folk.set(this.#folkBase.subarray(0, used * this.#words));
    this.#used = 0;
  }

  /**
   * Places task i at `from` or later; returns its start, or NEVER. `choice` is whom its crew is kept to, see
   * `choicesOf`.
   */
  place(i: number, from: Minute, choice: number): Minute {
    const model = this.#model;
    const length = model.minutes[i];
    const { calendar } = model;
    let last = this.#span;
    let start = from;
    if (model.kind[i] === Kind.Block) {
      last = calendar.end[0];
      if (start < calendar.start[0]) start = calendar.start[0];
    }
    if (start < 0) start = 0;
    const need = model.need[i];
    start =
      need >= 0 ? this.#withPeople(i, start, length, last, choice) : this.#withTools(i, start, length, last);
    if (start !== NEVER && start + length > this.#used) this.#used = start + length;
    return start;
  }

  #withTools(i: number, from: Minute, length: number, last: Minute): Minute {
    if (this.#layers === 1) return this.#withOneLayer(i, from, length, last);
    let start = from;
    // Minutes of the window below this one are yet to be read.
    let read = start;
    for (let u = start + length - 1; u >= read;) {
      if (start + length > last) return NEVER;
      if (this.#fits(i, u)) {
        u--;
        continue;
      }
      const seen = start + length;
      start = u + 1;
      u = start + length - 1;
      read = seen;
    }
    if (start + length > last) return NEVER;
    for (let l = 0; l < this.#layers; l++) {
      const asks = this.#asks[l][i];
      if (asks === 0) continue;
      const free = this.#free[l];
      for (let u = start; u < start + length; u++) free[u] -= asks;
    }
    return start;
  }

  #withOneLayer(i: number, from: Minute, length: number, last: Minute): Minute {
    const free = this.#free[0];
    const guard = this.#guard[0];
    const asks = this.#asks[0][i];
    let start = from;
    let end = start + length;
    if (end > last) return NEVER;
    if (asks === 0) return start;
    let read = start;
    for (let u = end - 1; u >= read;) {
      if ((((free[u] | guard) - asks) & guard) === guard) u--;
      else {
        read = end;
        start = u + 1;
        end = start + length;
        if (end > last) return NEVER;
        u = end - 1;
      }
    }
    for (let u = start; u < end; u++) free[u] -= asks;
    return start;
  }

  #fits(i: number, u: number): boolean {
    for (let l = 0; l < this.#layers; l++) {
      const guard = this.#guard[l];
      if ((((this.#free[l][u] | guard) - this.#asks[l][i]) & guard) !== guard) return false;
    }
    return true;
  }

  #withPeople(i: number, from: Minute, length: number, last: Minute, choice: number): Minute {
    const model = this.#model;
    const need = model.needs[model.need[i]];
    const words = this.#words;
    const since = this.#since;
    const folk = this.#folk;
    const { chooser } = this;
    const choices = this.#choices[model.need[i]];
    const allowed = choices[choice < choices.length ? choice : 0];
    let start = from;
    for (;;) {
      if (start + length > last) return NEVER;
      for (let q = 0; q < words; q++) since[q] = allowed[q];
      let jump = -1;
      for (let u = start + length - 1; u >= start; u--) {
        if (!this.#fits(i, u)) {
          jump = u;
          break;
        }
        let fewer = false;
        for (let q = 0; q < words; q++) {
          const both = since[q] & folk[u * words + q];
          if (both !== since[q]) {
            since[q] = both;
            fewer = true;
          }
        }
        // Too few over [u, end) are too few for every window that holds it.
        if (fewer && !chooser.mayDo(need, since, 0)) {
          jump = u;
          break;
        }
      }
      if (jump >= 0) start = jump + 1;
      else if (chooser.choose(i, need, since, 0, need.lean, start, start + length, null, null, null)) break;
      else start++;
    }
    const { crew } = chooser;
    for (let q = 0; q < words; q++) {
      this.crew[i * words + q] = crew[q];
      for (let u = start; u < start + length; u++) folk[u * words + q] &= ~crew[q];
    }
    for (let l = 0; l < this.#layers; l++) {
      const asks = this.#asks[l][i];
      if (asks !== 0) for (let u = start; u < start + length; u++) this.#free[l][u] -= asks;
    }
    return start;
  }
}

/** Lays tools side by side into as few 31-bit words as hold them. */
function packed(model: Model, span: number): { guard: Int32Array; asks: Int32Array[]; base: Int32Array[] } {
  const { tools, n, toolAt, toolPairs } = model;
  const width = tools.map((tool) => 33 - Math.clz32(Math.max(...tool.free)));
  const layer = new Int32Array(tools.length);
  const shift = new Int32Array(tools.length);
  let layers = 0;
  let filled = 31;
  tools.forEach((_, t) => {
    if (filled + width[t] > 31) {
      layers++;
      filled = 0;
    }
    layer[t] = layers - 1;
    shift[t] = filled;
    filled += width[t];
  });
  const guard = new Int32Array(layers);
  const asks = Array.from({ length: layers }, () => new Int32Array(n));
  const base = Array.from({ length: layers }, () => new Int32Array(span + 1));
  tools.forEach((tool, t) => {
    guard[layer[t]] |= 1 << (shift[t] + width[t] - 1);
    for (let k = 0; k < tool.at.length; k++) {
      const from = Math.max(0, tool.at[k]);
      const to = k + 1 < tool.at.length ? Math.min(span + 1, tool.at[k + 1]) : span + 1;
      for (let u = from; u < to; u++) base[layer[t]][u] |= tool.free[k] << shift[t];
    }
  });
  for (let i = 0; i < n; i++) {
    for (let q = toolAt[i]; q < toolAt[i + 1]; q += 2) {
      const t = toolPairs[q];
      // More than there ever is can't be written in the field; the guard alone is asked for, which never fits.
      const most = (1 << (width[t] - 1)) - 1;
      asks[layer[t]][i] += Math.min(toolPairs[q + 1], most) << shift[t];
    }
  }
  return { guard, asks, base };
}

function folk(model: Model, span: number): Int32Array {
  const { presence, crowd, calendar } = model;
  const { words } = crowd;
  const table = new Int32Array((span + 1) * words);
  for (let k = presence.first[0]; k < presence.first[1]; k++) {
    const to = k + 1 < presence.first[1] ? presence.from[k + 1] : calendar.end[0];
    for (let u = Math.max(0, presence.from[k]); u < to && u <= span; u++) {
      for (let q = 0; q < words; q++) table[u * words + q] = presence.here[k * words + q];
    }
  }
  return table;
}
