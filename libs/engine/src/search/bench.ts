import { EVER, NEVER } from '../calendar.js';
import { Hands } from '../generate/place.js';
import { Generator, type Stuck } from '../generate/generator.js';
import { choicesOf } from '../generate/choices.js';
import { Kind } from '../model/kind.js';
import { layOut, type Layout, type Model } from '../model/model.js';
import type { Drawing, Plan } from '../plan.js';
import type { Minute, Problem } from '../problem.js';
import { canKeep } from '../wishes/hopeless.js';
import { Orderer } from './order.js';

/** Postings are tried for at most so many tasks at a turnout; a week's roster has fewer. */
const MOST_GROUPS = 60;

/** Which way a plan is drawn. */
export type Side = 'forward' | 'backward';

/** A pass worth keeping: copies, so that the next pass may write over the originals. */
export interface Kept {
  ready: Minute;
  changes: number;
  start: Int32Array;
  end: Int32Array;
  list: Int32Array;
  hands: Uint8Array;
  /** Segments by field, empty on a dense table, where `crew` is by task. */
  count: number;
  task: Int32Array;
  turnout: Int32Array;
  from: Int32Array;
  to: Int32Array;
  crew: Int32Array;
  /** Postings that were only wished for and held firm all the same; null where no pass has drawn the plan. */
  held: number[] | null;
}

/** Something else to do now and then, between passes. */
export interface Aside {
  /** The bench's `effort` at which it is due. */
  readonly dueAt: number;
  run(): void;
}

/** How a plan of the same problem was drawn by another search. */
export type Drawn = Pick<Kept, 'list' | 'hands'>;

/**
 * Where lists are tried out: runs passes forward and backward, counts them, keeps the best. Everything that searches
 * goes through here, so that budget, stopping and replay are in one place.
 */
export class Bench {
  readonly model: Model;
  readonly forward: Generator;
  best: Kept | null = null;
  /** What stopped a pass, for as long as no pass came through. */
  stuck: Stuck | null = null;
  readonly orderer: Orderer;
  /** How many ways of crewing each task can be chosen from: `Hands`, on a dense table `choicesOf`. */
  readonly choices: Uint8Array;

  readonly #layout: Layout;
  readonly #budget: number;
  readonly #shouldStop: () => boolean;
  readonly #onBetter: (kept: Kept) => void;
  #backward: { generator: Generator; orderer: Orderer } | null | undefined;
  readonly #keys: Int32Array;
  readonly #back: Int32Array;
  #stopped = false;
  #elsewhere = 0;
  #nextAsk = 0;
  /** No plan can be ready before this minute. */
  bound: Minute = EVER;
  /** What takes turns with the passes. */
  readonly asides: Aside[] = [];
  /** Asked between passes for the newest plan of another search. */
  offered: () => Drawn | null = () => null;
  /** How many of them were better than the best of this one; what they took is not counted with the passes. */
  guests = 0;
  #guest: Generator | null = null;
  /** Order and crewing of the plan in force, or null. */
  readonly warm: { keys: Int32Array; hands: Uint8Array } | null;

  constructor(
    problem: Problem,
    layout: Layout,
    budget: number,
    shouldStop: () => boolean,
    onBetter: (kept: Kept) => void,
  ) {
    this.model = layOut(problem, layout);
    this.forward = new Generator(this.model);
    this.orderer = new Orderer(this.model);
    this.choices = choiceCounts(this.model);
    this.#layout = layout;
    this.#budget = budget;
    this.#shouldStop = shouldStop;
    this.#onBetter = onBetter;
    this.#keys = new Int32Array(this.model.n);
    this.#back = new Int32Array(this.model.n);
    this.warm = layout.warm ? orderOf(this.model, layout.warm, this.choices) : null;
  }

  /** Generation passes of the search so far, both ways; those of `keepPostings` come after it and are not counted. */
  get passes(): number {
    return this.forward.passes + (this.#backward?.generator.passes ?? 0) + this.#elsewhere;
  }

  /** By which the exact search takes its turns: passes, where one that moves a single task counts a quarter. */
  get effort(): number {
    return this.passes - this.#elsewhere + (this.#elsewhere >> 2);
  }

  /** Counts passes that a search ran by itself: over all tasks, or forward from one and backward from it. */
  spend(passes: number): void {
    this.#elsewhere += passes;
  }

  /** Nothing more to do: the budget is spent, somebody said stop, or nothing better exists. */
  isOver(): boolean {
    if (this.#stopped || this.#nothingBetter()) return true;
    for (const aside of this.asides) if (!this.#nothingBetter() && this.effort >= aside.dueAt) aside.run();
    if (this.passes >= this.#budget) return true;
    if (this.passes >= this.#nextAsk) {
      this.#nextAsk = this.passes + 16;
      if (this.#shouldStop()) this.#stopped = true;
      else this.#meetGuest();
    }
    return this.#stopped;
  }

  #nothingBetter(): boolean {
    return this.best !== null && this.best.ready <= this.bound && this.best.changes === 0;
  }

  /** Draws the plan that another search offers, apart from the passes of this one, and keeps it if it is better. */
  #meetGuest(): void {
    const drawn = this.offered();
    if (drawn === null) return;
    this.#guest ??= new Generator(this.model);
    const { best } = this;
    this.#look(this.#guest, drawn.list, drawn.hands, this.#guest.run(drawn.list, drawn.hands, EVER));
    if (this.best !== best) this.guests++;
  }

  /** One forward pass over the list; the result stands in `forward`. */
  try(list: Int32Array, hands: Uint8Array | null): Minute {
    const ready = this.forward.run(list, hands, EVER);
    if (ready === NEVER && this.best === null) this.stuck = this.forward.stuck;
    this.#look(this.forward, list, hands, ready);
    return ready;
  }

  /** Keeps what a generator has drawn if it is better than the best so far. */
  #look(drawn: Generator, list: Int32Array, hands: Uint8Array | null, ready: Minute): void {
    const { best } = this;
    if (ready === NEVER) return;
    if (best !== null && (ready > best.ready || (ready === best.ready && best.changes === 0))) return;
    const changes = this.#changes(drawn);
    if (best === null || ready < best.ready || changes < best.changes)
      this.#keep(drawn, list, hands, ready, changes, []);
  }

  /**
   * Pushes the plan of the last forward pass against its own ready minute from behind, then draws it forward again
   * in the order in which tasks now start (Tormos and Lova 2001; from memory). `list` becomes the new order.
   */
  justify(list: Int32Array, hands: Uint8Array | null, ready: Minute): Minute {
    if (this.#behind === null) return ready;
    const { generator, orderer } = this.#behind;
    const { n, plain, problem } = this.model;
    const { horizon } = problem;
    const keys = this.#keys;
    const back = this.#back;
    for (let i = 0; i < n; i++) keys[i] = horizon - this.forward.end[i];
    if (plain) {
      for (let k = 0; k < n; k++) back[k] = list[n - 1 - k];
      orderer.byPlainKey(keys, back);
    } else orderer.byKey(keys, back);
    if (generator.run(back, hands, horizon - ready) === NEVER) return ready;
    for (let i = 0; i < n; i++) keys[i] = horizon - generator.end[i];
    if (plain) {
      for (let k = 0; k < n; k++) list[k] = back[n - 1 - k];
      this.orderer.byPlainKey(keys, list);
    } else this.orderer.byKey(keys, list);
    return this.try(list, hands);
  }

  /** Latest ends of the plan that was justified last, as it stood pushed against its ready minute. */
  lateEnds(into: Int32Array): boolean {
    const generator = this.#backward?.generator;
    if (!generator || generator.passes === 0) return false;
    for (let i = 0; i < into.length; i++) into[i] = this.model.problem.horizon - generator.start[i];
    return true;
  }

  /** Fills `list` in order of keys for a pass of that side. */
  order(side: Side, keys: Float64Array | Int32Array, list: Int32Array): void {
    if (side === 'forward') this.orderer.byKey(keys, list);
    else this.#behind?.orderer.byKey(keys, list);
  }

  /** Whether any stretch of time is as good as any other, so that a plan drawn backward is one drawn forward. */
  get twoSided(): boolean {
    const { dense, presence, tools, now, calendar, horizon } = this.model;
    const wide = calendar.count === 1 && calendar.start[0] <= now && calendar.end[0] >= horizon;
    return dense && wide && presence.first[1] === 1 && tools.every((tool) => tool.at.length === 1);
  }

  /**
   * One pass of that side, where `twoSided`; what counts is the length from its first start to its last end. NEVER
   * where the pass did not come through.
   */
  draw(side: Side, list: Int32Array, hands: Uint8Array | null): Minute {
    if (side === 'forward') {
      const ready = this.try(list, hands);
      return ready === NEVER ? NEVER : ready - this.model.now;
    }
    const behind = this.#behind;
    if (behind === null) return NEVER;
    return behind.generator.run(list, hands, 0);
  }

  /**
   * The last pass of that side, drawn from `list` and of that length, as it reads from its other end: starts counted
   * from there into `keys`, tasks in that order into `turned`.
   */
  turned(side: Side, length: Minute, list: Int32Array, keys: Int32Array, turned: Int32Array): void {
    const { n, now, plain } = this.model;
    const behind = this.#behind;
    if (behind === null) throw new Error('plans of this problem are not drawn backward');
    const [generator, orderer] =
      side === 'forward' ? [this.forward, behind.orderer] : [behind.generator, this.orderer];
    const end = side === 'forward' ? now + length : length;
    for (let i = 0; i < n; i++) keys[i] = end - generator.end[i];
    if (!plain) {
      orderer.byKey(keys, turned);
      return;
    }
    for (let k = 0; k < n; k++) turned[k] = list[n - 1 - k];
    orderer.byPlainKey(keys, turned);
  }

  get #behind(): { generator: Generator; orderer: Orderer } | null {
    if (this.#backward === undefined) this.#backward = this.#mirror();
    return this.#backward;
  }

  #mirror(): { generator: Generator; orderer: Orderer } | null {
    const model = layOut(this.model.problem, { mirrored: true });
    const generator = new Generator(model);
    return generator.possible ? { generator, orderer: new Orderer(model) } : null;
  }

  /**
   * Draws the best plan again with the postings so far only wished for held firm, one task's at one turnout after the
   * other, and keeps each as long as the plan is ready no later.
   */
  keepPostings(): void {
    const { problem } = this.model;
    const groups = new Map<string, number[]>();
    problem.posted.forEach(({ task, turnout, firm }, k) => {
      if (firm || !canKeep(this.model, k)) return;
      const key = `${task} ${turnout}`;
      groups.set(key, [...(groups.get(key) ?? []), k]);
    });
    const held = new Set<number>();
    const all = [...groups.values()].slice(0, MOST_GROUPS);
    // Most often all of them can be kept at once.
    if (this.best !== null && this.#hold(new Set(all.flat()))) return;
    for (const group of all) {
      const { best } = this;
      if (best === null || best.changes === 0) return;
      for (const k of group) held.add(k);
      if (!this.#hold(held)) for (const k of group) held.delete(k);
    }
  }

  #hold(held: ReadonlySet<number>): boolean {
    const { best } = this;
    if (best === null || held.size === 0) return false;
    const generator = this.#holding([...held]);
    const ready = generator.run(best.list, best.hands, EVER);
    if (ready === NEVER || ready > best.ready) return false;
    const changes = this.#changes(generator);
    if (ready < best.ready || changes < best.changes)
      this.#keep(generator, best.list, best.hands, ready, changes, [...held]);
    return true;
  }

  /** Keeps a plan of a dense table that was not drawn by a pass, if it is better. @param list its tasks by start */
  take(list: Int32Array, hands: Uint8Array, start: Int32Array, crew: Int32Array, ready: Minute): void {
    if (this.best !== null && ready >= this.best.ready) return;
    const { minutes } = this.model;
    const end = Int32Array.from(start, (minute, i) => minute + minutes[i]);
    this.#keep({ start, end, segments: null, crewOf: crew }, list, hands, ready, 0, null);
  }

  /** Draws plans in which these postings are firm. */
  #holding(held: readonly number[]): Generator {
    const { problem } = this.model;
    const posted = problem.posted.map((one, k) => (held.includes(k) ? { ...one, firm: true } : one));
    return new Generator(layOut({ ...problem, posted }, this.#layout));
  }

  /** Draws a plan once more exactly as it was drawn; null when it does not come through. */
  redraw({ order, crewing, held }: Drawing): Kept | null {
    const { n } = this.model;
    if (order.length !== n || crewing.length !== n) return null;
    const generator = held.length > 0 ? this.#holding(held) : this.forward;
    const list = Int32Array.from(order);
    const hands = Uint8Array.from(crewing);
    const ready = generator.run(list, hands, EVER);
    if (ready === NEVER) return null;
    this.#keep(generator, list, hands, ready, this.#changes(generator), held);
    return this.best;
  }

  /** Postings that the last forward pass does not keep. */
  #changes({ segments }: Generator): number {
    const { problem, wished, crowd } = this.model;
    if (wished === null || segments === null) return 0;
    let changed = 0;
    for (const { task, turnout, person } of problem.posted) {
      if (problem.tasks[task].progress.kind === 'done' || problem.turnouts[turnout].end <= problem.now)
        continue;
      const rank = crowd.rank[person];
      let kept = false;
      for (let k = 0; k < segments.count && !kept; k++) {
        if (segments.task[k] !== task || segments.turnout[k] !== turnout) continue;
        kept = (segments.crew[k * crowd.words + (rank >> 5)] & (1 << (rank & 31))) !== 0;
      }
      if (!kept) changed++;
    }
    return changed;
  }

  #keep(
    { start, end, segments, crewOf }: Pick<Generator, 'start' | 'end' | 'segments' | 'crewOf'>,
    list: Int32Array,
    hands: Uint8Array | null,
    ready: Minute,
    changes: number,
    held: number[] | null,
  ): void {
    const { words } = this.model.crowd;
    const count = segments?.count ?? 0;
    const part = (array: Int32Array | undefined, size: number) => array?.slice(0, size) ?? new Int32Array(0);
    this.best = {
      ready,
      changes,
      start: start.slice(),
      end: end.slice(),
      list: list.slice(),
      hands: hands?.slice() ?? new Uint8Array(this.model.n),
      count,
      task: part(segments?.task, count),
      turnout: part(segments?.turnout, count),
      from: part(segments?.start, count),
      to: part(segments?.end, count),
      crew: crewOf?.slice() ?? part(segments?.crew, count * words),
      held,
    };
    this.#onBetter(this.best);
  }
}

function choiceCounts(model: Model): Uint8Array {
  const { need, kind, minutes, dense } = model;
  const choices = dense ? choicesOf(model) : [];
  return Uint8Array.from(need, (index, i) => {
    if (index < 0) return 1;
    if (dense) return choices[index].length;
    // A set length is as long with any crew.
    return minutes[i] < 0 && kind[i] !== Kind.Done ? 3 : 1;
  });
}

/** As the plan was drawn, where it says so; else by the ends of its tasks, crewed as large as they were. */
function orderOf(
  { n, problem }: Model,
  plan: Plan,
  choices: Uint8Array,
): { keys: Int32Array; hands: Uint8Array } | null {
  if (plan.tasks.length !== n) return null;
  const { drawn } = plan;
  const hands = new Uint8Array(n);
  if (drawn) {
    const keys = new Int32Array(n).fill(drawn.order.length);
    drawn.order.forEach((task, k) => (keys[task] = k));
    // Of a plan of other people a choice may be left that there is no more.
    drawn.crewing.forEach((choice, task) => (hands[task] = Math.min(choice, choices[task] - 1)));
    return { keys, hands };
  }
  const most = new Int32Array(n);
  for (const { task, crew } of plan.segments) most[task] = Math.max(most[task], crew.length);
  problem.tasks.forEach(({ crew, effort }, i) => {
    if (effort.kind !== 'work' || most[i] === 0 || most[i] === crew.efficient) return;
    hands[i] = most[i] > crew.efficient ? Hands.Most : Hands.Lean;
  });
  return { keys: Int32Array.from(plan.tasks, (task) => task.end), hands };
}
