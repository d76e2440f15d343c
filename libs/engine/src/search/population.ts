import { NEVER } from '../calendar.js';
import type { Minute } from '../problem.js';
import type { Bench, Side } from './bench.js';
import { Lately } from './lately.js';
import { Peaks } from './peaks.js';
import type { Random } from './random.js';

/** Times that a child which was drawn before is changed a little, before it is drawn all the same. */
const MOST_CHANGES = 8;

/** One member: a plan drawn one way, laid out for being drawn the next way. */
interface Member {
  /** The tasks in the order in which the plan reads in the direction of the next pass. */
  list: Int32Array;
  /** Start of each task read in that direction, from 0 on. */
  keys: Int32Array;
  /** Whom each task's crew is kept to, see `choicesOf`. */
  hands: Uint8Array;
  /** Minutes from first start to last end. */
  length: Minute;
}

/**
 * Population search over lists of tasks, where any stretch of time is as good as another. Two generations face each
 * other: plans drawn forward give the lists for plans drawn backward and the other way round, so that every pass is
 * a justification as well as a crossing (Debels and Vanhoucke 2007; from memory).
 *
 * A child keeps one parent's order where that parent's plan is busiest (the peaks of Valls, Ballestin and
 * Quintanilla 2008; from memory) and the other's before and after:
 *
 *     mother   a b c d e f g h        before the window as in mother, inside as in father, the rest as in mother
 *     father   b a|d f c|h e g        child   a b|d f c|e g h
 *
 * Half of the children have one task moved by chance, and a child that was drawn before is changed until it is new.
 */
export class Population {
  /** The shortest plan of this population. */
  best: Minute = NEVER;
  /** Generations since a better one came. */
  idle = 0;

  readonly #bench: Bench;
  readonly #random: Random;
  readonly #peaks: Peaks;
  readonly #size: number;
  readonly #lately = new Lately();
  readonly #list: Int32Array;
  readonly #used: Uint8Array;
  readonly #hands: Uint8Array;
  readonly #anyChoice: boolean;
  readonly #place: Int32Array;
  #members: Member[] = [];
  #facing: Member[] = [];
  #side: Side = 'forward';

  constructor(bench: Bench, random: Random, size: number) {
    const { n } = bench.model;
    this.#bench = bench;
    this.#random = random;
    this.#size = size;
    this.#peaks = new Peaks(bench.model);
    this.#list = new Int32Array(n);
    this.#used = new Uint8Array(n);
    this.#hands = new Uint8Array(n);
    this.#anyChoice = bench.choices.some((count) => count > 1);
    this.#place = new Int32Array(n);
  }

  /** Makes the first generation out of keys that `seed` fills in, one call a member. */
  start(seed: (member: number, keys: Float64Array) => void): void {
    const keys = new Float64Array(this.#bench.model.n);
    for (let m = 0; m < this.#size && !this.#bench.isOver(); m++) {
      this.#hands.fill(0);
      seed(m, keys);
      this.#bench.order('forward', keys, this.#list);
      const member = this.#draw('forward');
      if (member) this.#members.push(member);
    }
    this.#side = 'backward';
  }

  /** One generation; false when there are no parents to go on with. */
  step(): boolean {
    const parents = this.#members;
    const facing = this.#facing;
    const side = this.#side;
    if (parents.length < 2) return false;
    const before = this.best;
    for (let m = 0; m < parents.length && !this.#bench.isOver(); m++) {
      this.#cross(parents[m], parents[this.#tournament(parents, m)]);
      this.#renew(side);
      const child = this.#draw(side);
      if (!child) continue;
      if (m >= facing.length) facing.push(child);
      else if (child.length <= facing[m].length) facing[m] = child;
    }
    this.idle = this.best < before ? 0 : this.idle + 1;
    this.#members = facing;
    this.#facing = parents;
    this.#side = side === 'forward' ? 'backward' : 'forward';
    return true;
  }

  /** The shorter of two others. */
  #tournament(parents: Member[], not: number): number {
    const pick = () => {
      const k = this.#random.below(parents.length - 1);
      return k >= not ? k + 1 : k;
    };
    const a = pick();
    const b = pick();
    return parents[a].length <= parents[b].length ? a : b;
  }

  /** Leaves a child of the two in `#list`. */
  #cross(one: Member, other: Member): void {
    const random = this.#random;
    const [father, mother] = random.share() < 0.5 ? [one, other] : [other, one];
    const { n } = this.#bench.model;
    const list = this.#list;
    const hands = this.#hands;
    const used = this.#used;
    const { from, to } = this.#peaks.busiest(father.keys, father.length, 0.25 + 0.5 * random.share());
    let first = 0;
    while (first < n && father.keys[father.list[first]] < from) first++;
    let last = first;
    while (last < n && father.keys[father.list[last]] <= to) last++;
    used.fill(0);
    let filled = 0;
    for (; filled < first; filled++) {
      const i = mother.list[filled];
      list[filled] = i;
      hands[i] = mother.hands[i];
      used[i] = 1;
    }
    for (let k = 0; filled < last; k++) {
      const i = father.list[k];
      if (used[i] !== 0) continue;
      list[filled++] = i;
      hands[i] = father.hands[i];
      used[i] = 1;
    }
    for (let k = 0; filled < n; k++) {
      const i = mother.list[k];
      if (used[i] !== 0) continue;
      list[filled++] = i;
      hands[i] = mother.hands[i];
    }
    if (this.#anyChoice) this.#recrew();
    if (random.share() < 0.5) this.#move(1);
  }

  /** Changes a child that was drawn before. */
  #renew(side: Side): void {
    const hands = this.#anyChoice ? this.#hands : null;
    for (
      let k = 0;
      k < MOST_CHANGES && this.#lately.had(this.#list, hands, side === 'forward' ? 0 : 1);
      k++
    ) {
      if (this.#anyChoice) this.#recrew();
      this.#move(1 + this.#random.below(3));
    }
  }

  #recrew(): void {
    const { n } = this.#bench.model;
    for (let times = this.#random.below(4); times > 0; times--) {
      const i = this.#random.below(n);
      this.#hands[i] = this.#random.share() < 0.3 ? 0 : this.#random.below(this.#bench.choices[i]);
    }
  }

  /** Moves tasks to an earlier place, behind whatever they must follow. */
  #move(times: number): void {
    const { n, inLinks, outLinks } = this.#bench.model;
    const list = this.#list;
    const place = this.#place;
    const links = this.#side === 'forward' ? inLinks : outLinks;
    for (let k = 0; k < n; k++) place[list[k]] = k;
    for (; times > 0; times--) {
      const k = this.#random.below(n);
      const i = list[k];
      let low = 0;
      for (let q = links.at[i]; q < links.at[i + 1]; q++) low = Math.max(low, place[links.task[q]] + 1);
      if (low >= k) continue;
      const to = low + this.#random.below(k - low);
      for (let q = k; q > to; q--) {
        list[q] = list[q - 1];
        place[list[q]] = q;
      }
      list[to] = i;
      place[i] = to;
    }
  }

  #draw(side: Side): Member | null {
    const bench = this.#bench;
    const length = bench.draw(side, this.#list, this.#hands);
    if (length === NEVER) return null;
    if (length < this.best) this.best = length;
    const { n } = bench.model;
    const keys = new Int32Array(n);
    const list = new Int32Array(n);
    bench.turned(side, length, this.#list, keys, list);
    return { list, keys, hands: this.#hands.slice(), length };
  }
}
