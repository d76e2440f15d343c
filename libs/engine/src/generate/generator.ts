import { EVER, NEVER } from '../calendar.js';
import { Kind } from '../model/kind.js';
import type { Model } from '../model/model.js';
import { Form } from '../model/ties.js';
import type { Minute } from '../problem.js';
import { DensePlacer } from './dense.js';
import { OpenElements } from './openings.js';
import { Placer } from './place.js';
import type { Segments } from './segments.js';

/** Why a pass could not place a task. */
export type Stuck = { task: number; why: 'room' | 'posting' };

/**
 * The generation scheme: takes the tasks in the order of a list and places each at the earliest minute that links,
 * people, tools and openings allow (serial scheme, Kelley 1963). An opener is put off while it would leave no way
 * to close everything again.
 *
 * The list has every task after those that its links come from.
 */
export class Generator {
  readonly model: Model;
  readonly start: Int32Array;
  readonly end: Int32Array;
  /** Passes run. */
  passes = 0;
  /** What stopped the last pass, or null. */
  stuck: Stuck | null = null;

  readonly #placer: Placer | null;
  readonly #dense: DensePlacer | null;
  readonly #openings: OpenElements;
  readonly #done: Uint8Array;
  readonly #next: Int32Array;
  readonly #refused: Int32Array;
  readonly #early: Uint8Array | null;
  readonly #list: Int32Array;
  /** What is done already sets a first ready minute. */
  #fixedReady: Minute;
  /** Whether the last drawing ended because nothing more may be opened. */
  #shutIn = false;
  #atEnd: Minute = 0;

  constructor(model: Model) {
    const { n } = model;
    this.model = model;
    this.start = new Int32Array(n);
    this.end = new Int32Array(n);
    this.#done = new Uint8Array(n);
    this.#next = new Int32Array(n + 1);
    this.#refused = new Int32Array(n);
    this.#list = new Int32Array(n);
    this.#openings = new OpenElements(model);
    this.#dense = model.dense ? new DensePlacer(model) : null;
    this.#placer = model.dense ? null : new Placer(model);
    this.#early = beforePostings(model);
    this.#fixedReady = n > 0 ? EVER : model.now;
    for (let i = 0; i < n; i++) {
      if (model.kind[i] !== Kind.Done) continue;
      if (!model.mirrored && model.ended[i] > this.#fixedReady) this.#fixedReady = model.ended[i];
      this.start[i] = model.begun[i];
      this.end[i] = model.ended[i];
    }
  }

  /** False where no order was found in which everything can be opened and shut. */
  get possible(): boolean {
    return this.#openings.possible;
  }

  /** Segments of the last pass; on a dense table there are none, starts, ends and `crewOf` say it all. */
  get segments(): Segments | null {
    return this.#placer?.segments ?? null;
  }

  /** Crews by task of the last pass on a dense table. */
  get crewOf(): Int32Array | null {
    return this.#dense?.crew ?? null;
  }

  /**
   * One pass.
   * @param hands by task, see `Hands`; on a dense table whom the crew is kept to, see `choicesOf`; null for all 0
   * @param floor no task that has not begun starts before this minute
   * @returns the minute at which the last task ends, or NEVER with `stuck` set
   */
  run(list: Int32Array, hands: Uint8Array | null, floor: Minute): Minute {
    this.passes++;
    this.stuck = null;
    if (this.#dense !== null) return this.#runDense(this.#dense, list, hands, floor);
    const placer = this.#placer!;
    placer.reset();
    if (this.#early === null && !this.#openings.active) {
      let ready = this.#fixedReady;
      for (let k = 0; k < list.length; k++) {
        const i = list[k];
        if (this.model.kind[i] === Kind.Done) continue;
        if (!this.#place(placer, i, hands, floor)) return NEVER;
        if (this.end[i] > ready) ready = this.end[i];
      }
      return ready;
    }
    const sorted = this.#sorted(list);
    this.#openings.begin();
    for (;;) {
      this.#shutIn = false;
      const ready = this.#runPutOff(placer, sorted, hands, floor);
      if (ready === NEVER ? !this.#shutIn : this.#openings.holds) return ready;
      if (!this.#openings.bindMore()) {
        this.stuck ??= { task: sorted[0], why: 'room' };
        return NEVER;
      }
      this.passes++;
      this.stuck = null;
      placer.reset();
    }
  }

  #runDense(dense: DensePlacer, list: Int32Array, hands: Uint8Array | null, floor: Minute): Minute {
    const { kind, minutes, earliest, plain, inLinks } = this.model;
    const { start, end } = this;
    const { at, task } = inLinks;
    dense.reset();
    let ready = this.#fixedReady;
    for (let k = 0; k < list.length; k++) {
      const i = list[k];
      let from = earliest[i] > floor ? earliest[i] : floor;
      if (plain) {
        for (let q = at[i], last = at[i + 1]; q < last; q++) {
          const e = end[task[q]];
          if (e > from) from = e;
        }
      } else from = this.#afterLinks(i, from, minutes[i]);
      if (kind[i] !== Kind.Mark) from = dense.place(i, from, hands === null ? 0 : hands[i]);
      if (from === NEVER) {
        this.stuck = { task: i, why: 'room' };
        return NEVER;
      }
      start[i] = from;
      const e = from + minutes[i];
      end[i] = e;
      if (e > ready) ready = e;
    }
    return ready;
  }

  /** Takes the first task of the list that may go; whatever opens too much waits for something to be shut. */
  #runPutOff(placer: Placer, list: Int32Array, hands: Uint8Array | null, floor: Minute): Minute {
    const { model } = this;
    const { n, inLinks } = model;
    const openings = this.#openings;
    const next = this.#next;
    const done = this.#done;
    openings.reset();
    this.#refused.fill(-1);
    for (let i = 0; i < n; i++) done[i] = model.kind[i] === Kind.Done ? 1 : 0;
    let ready = this.#fixedReady;
    let shut = 0;
    let early = 0;
    if (this.#early !== null) for (let i = 0; i < n; i++) early += this.#early[i] & (1 - done[i]);
    // A linked list over the positions of `list`, position n being its head.
    let before = n;
    for (let k = 0; k < n; k++) {
      if (done[list[k]]) continue;
      next[before] = k;
      before = k;
    }
    next[before] = -1;
    placer.reserving = early > 0;
    for (before = n; next[n] >= 0;) {
      const k = next[before];
      if (k < 0) {
        this.stuck = { task: list[next[n]], why: 'room' };
        this.#shutIn = true;
        return NEVER;
      }
      const i = list[k];
      let waits = false;
      for (let q = inLinks.at[i]; q < inLinks.at[i + 1] && !waits; q++) waits = done[inLinks.task[q]] === 0;
      if (!waits && openings.active && openings.opensAny(i)) {
        if (this.#refused[i] === shut) waits = true;
        else if (!openings.mayOpen(i, this.#earliestStart(i, floor))) {
          this.#refused[i] = shut;
          waits = true;
        }
      }
      if (waits) {
        before = k;
        continue;
      }
      if (!this.#place(placer, i, hands, floor)) return NEVER;
      done[i] = 1;
      if (openings.active) {
        openings.place(i, this.start[i], this.end[i]);
        if (model.openings.closes[i].length > 0) shut++;
      }
      if (this.#early !== null && this.#early[i] && --early === 0) placer.reserving = false;
      if (this.end[i] > ready) ready = this.end[i];
      next[before] = next[k];
      before = n;
    }
    return ready;
  }

  #place(placer: Placer, i: number, hands: Uint8Array | null, floor: Minute): boolean {
    const { model } = this;
    let from = this.#earliestStart(i, floor);
    if (this.#openings.active && this.#openings.opensAny(i)) from = this.#openings.from(i, from);
    if (!placer.place(i, from, this.#atEnd, hands === null ? 0 : hands[i])) {
      this.stuck = { task: i, why: placer.brokePosting ? 'posting' : 'room' };
      return false;
    }
    // What is under way keeps its start; only what is left of it is placed.
    this.start[i] = model.begun[i] > EVER ? model.begun[i] : placer.start;
    this.end[i] = placer.end;
    return true;
  }

  #earliestStart(i: number, floor: Minute): Minute {
    const earliest = this.model.earliest[i];
    return this.#afterLinks(i, earliest > floor ? earliest : floor, -1);
  }

  /** Earliest start by the links; `#atEnd` becomes the earliest end, which for a set `length` is a start as well. */
  #afterLinks(i: number, floor: Minute, length: number): Minute {
    const { inLinks, calendar, begun } = this.model;
    const free = begun[i] > EVER;
    let from = floor;
    let atEnd = floor;
    for (let q = inLinks.at[i]; q < inLinks.at[i + 1]; q++) {
      const form = inLinks.form[q];
      const before = inLinks.task[q];
      let t = form & Form.FromStart ? this.start[before] : this.end[before];
      const lag = inLinks.lag[q];
      if (lag !== 0) t = calendar.lagged(t, lag, (form & Form.Working) !== 0);
      if (form & Form.BindsEnd) {
        if (t > atEnd) atEnd = t;
      } else if (!free && t > from) from = t;
    }
    if (length >= 0 && atEnd - length > from) from = atEnd - length;
    this.#atEnd = atEnd;
    return from;
  }

  /** Tasks with firm postings and all that must come before them go first. */
  #sorted(list: Int32Array): Int32Array {
    if (this.#early === null) return list;
    let filled = 0;
    for (const wanted of [1, 0]) {
      for (let k = 0; k < list.length; k++)
        if (this.#early[list[k]] === wanted) this.#list[filled++] = list[k];
    }
    return this.#list;
  }
}

function beforePostings(model: Model): Uint8Array | null {
  const { wished, n, inLinks, order } = model;
  if (wished === null || wished.firmTurnouts.size === 0) return null;
  const early = new Uint8Array(n);
  for (const i of wished.firmTurnouts.keys()) early[i] = 1;
  for (let k = n - 1; k >= 0; k--) {
    if (early[order[k]] === 0) continue;
    for (let q = inLinks.at[order[k]]; q < inLinks.at[order[k] + 1]; q++) early[inLinks.task[q]] = 1;
  }
  return early;
}
