import { Clauses } from './clauses.js';
import { Edges, type Difference } from './edges.js';
import { Sums, type Sum } from './sums.js';
import type { Piece, Profiles, Resource } from './profiles.js';
import { TimeTable } from './time-table.js';
import { Trail, type Literals } from './trail.js';

/** Whole-number variables and what must hold between them. */
export interface Rules {
  low: number[];
  high: number[];
  differences: Difference[];
  pieces: Piece[];
  resources: Resource[];
  sums: Sum[];
  /** All pieces end by this minute. */
  span: number;
}

/** Reasons of the trail; a clause is known by its place, 0 or more. */
export const Why = { Decided: -1, Pushed: -2, Lifted: -3, TimeTable: -4, Sum: -5 } as const;

/** Integers that learned clauses may take up: 32 MiB. */
const MOST_ROOM = 1 << 23;

/** Draws what follows from the bounds as they stand, and says why. */
export class Kernel {
  readonly trail: Trail;
  readonly clauses: Clauses;
  readonly #edges: Edges;
  readonly #sums: Sums;
  readonly #table: TimeTable;
  readonly #profiles: Profiles;
  /** Entries of the trail below this one were looked at. */
  #head = 0;
  /** False once it is known that the rules can't be kept at all. */
  sound: boolean;

  constructor(rules: Rules) {
    this.trail = new Trail(rules.low, rules.high);
    this.clauses = new Clauses(this.trail, MOST_ROOM);
    this.#edges = new Edges(this.trail, rules.differences, Why.Pushed, Why.Lifted);
    this.#sums = new Sums(this.trail, rules.sums, Why.Sum);
    this.#table = new TimeTable(this.trail, rules.pieces, rules.resources, rules.span, Why.TimeTable);
    this.#profiles = this.#table.profiles;
    let sound = this.#sums.propagateAll();
    for (let side = 0; side < this.trail.bound.length && sound; side++) sound = this.#edges.propagate(side);
    this.sound = sound;
    if (sound) this.propagate();
  }

  openLevel(): void {
    this.trail.openLevel();
    this.#profiles.openLevel(this.trail.level);
  }

  backTo(level: number): void {
    if (level >= this.trail.level) return;
    this.trail.backTo(level);
    this.#profiles.backTo(level);
    this.#head = this.trail.length;
  }

  /** Draws all that follows; false when something can't hold, see `explainConflict`. */
  propagate(): boolean {
    const holds = this.#follow();
    if (!holds && this.trail.level === 0) this.sound = false;
    return holds;
  }

  #follow(): boolean {
    const { trail } = this;
    for (;;) {
      while (this.#head < trail.length) {
        const k = this.#head++;
        const side = trail.side[k];
        this.#profiles.rise(side);
        if (
          !this.clauses.propagate(side, trail.old[k], trail.value[k]) ||
          !this.#edges.propagate(side) ||
          !this.#sums.propagate(side)
        ) {
          return false;
        }
      }
      if (!this.#table.filter()) return false;
      if (this.#head === trail.length) return true;
    }
  }

  /** Literals, all true, that can't be true together. */
  explainConflict(out: Literals): void {
    const { failed, length } = this.trail;
    out.clear();
    if (failed.side < 0) {
      if (failed.reason === Why.Sum) this.#sums.explainFailed(out);
      else this.#table.explainOverload(out);
      return;
    }
    this.explain(failed.side, failed.value, failed.reason, failed.info, length, out);
    out.add(failed.side ^ 1, 1 - failed.value);
  }

  /** Why entry k of the trail made its side at least `value`: literals that were true before it. */
  explainEntry(k: number, value: number, out: Literals): void {
    const { side, reason, info } = this.trail;
    out.clear();
    this.explain(side[k], value, reason[k], info[k], k, out);
  }

  explain(side: number, value: number, reason: number, info: number, at: number, out: Literals): void {
    switch (reason) {
      case Why.Pushed:
        this.#edges.explainPush(info, value, out);
        return;
      case Why.Lifted:
        this.#edges.explainLift(info, at, out);
        return;
      case Why.TimeTable:
        this.#table.explain(side, value, info, at, out);
        return;
      case Why.Sum:
        this.#sums.explain(info, side, value, at, out);
        return;
      default:
        this.clauses.explain(reason, out);
    }
  }
}
