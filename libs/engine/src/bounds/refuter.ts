import { WorkCalendar } from '../calendar.js';
import { ONE_GO } from '../lengths.js';
import { NetworkPass } from '../network.js';
import type { Bottleneck } from '../plan.js';
import type { Minute, Problem } from '../problem.js';
import { conflictsOf } from './conflicts.js';
import { Energy, type Windows } from './energy.js';
import { loadsOf, mirrored, type Load } from './loads.js';
import { openSpansOf, type OpenSpan } from './open-spans.js';
import { Reach } from './reach.js';
import { SkillLoad } from './skill-load.js';
import { WholePieces } from './whole-pieces.js';

/**
 * Tries to show that everything can't be ready by a minute (destructive bound: Klein and Scholl 1999, from memory).
 *
 * A deadline gives every task a window from its early start to its late end. Each test may find that some windows
 * can't all be kept; whatever a test finds holds for every plan, so a minute once refuted stays refuted.
 */
export class Refuter {
  readonly calendar: WorkCalendar;
  readonly #pass: NetworkPass;
  readonly #reach: Reach;
  readonly #release: Int32Array;
  /** Of tasks, and after them of open spans. */
  #windows: Windows = windowsFor(0);
  #turned: Windows = windowsFor(0);
  readonly #live: number[];
  /** The earliest ready minute with people and tools unlimited; NEVER where the turnouts run out. */
  readonly path: Minute;
  /** What the last refutation by energy or skill load found short. */
  bottleneck: Bottleneck | null = null;
  #made: Tests | null = null;

  constructor(readonly problem: Problem) {
    this.calendar = new WorkCalendar(problem.turnouts);
    this.#reach = new Reach(problem, this.calendar);
    this.#pass = new NetworkPass(problem, this.#reach);
    if (this.#pass.circle) throw new RangeError('links go round in a circle');
    this.#release = this.#pass.release.slice();
    this.path = this.#pass.forward();
    this.#live = problem.tasks.flatMap((task, i) => (task.progress.kind === 'done' ? [] : [i]));
  }

  /** Made when first asked for: the critical path alone needs none of them. */
  get #tests(): Tests {
    if (!this.#made) {
      this.#made = testsFor(this.problem, this.#reach, this.#pass.order);
      const size = this.problem.tasks.length + this.#made.spans.length;
      this.#windows = windowsFor(size);
      this.#turned = windowsFor(size);
    }
    return this.#made;
  }

  forget(): void {
    this.bottleneck = null;
  }

  /** Windows alone: somebody starts later than they may, whatever the people and tools. */
  byPath(deadline: Minute): boolean {
    this.#pass.release.set(this.#release);
    this.#pass.due.fill(deadline);
    this.#pass.forward();
    return !this.#windowsOpen(deadline);
  }

  /** Some tool, or some people, have more to do between two minutes than they can. */
  byEnergy(deadline: Minute): boolean {
    if (this.byPath(deadline)) return true;
    const { energies } = this.#tests;
    this.#read();
    const failed = energies.find((energy) => !energy.holds(this.#windows));
    if (failed) {
      const [from, to] = [this.calendar.startOf(failed.failedFrom), this.calendar.endOf(failed.failedTo)];
      this.bottleneck = bottleneckOf(failed, from, to);
      return true;
    }
    const short = this.#shortOfSlots();
    if (short) this.bottleneck = bottleneckOf(short, short.failedFrom, short.failedTo);
    return short !== undefined;
  }

  bySkillLoad(deadline: Minute): boolean {
    if (this.byPath(deadline)) return true;
    const short = this.#tests.skills.shortage(this.#pass.earlyStart, this.#pass.lateFinish);
    if (short) this.bottleneck = short;
    return short !== null;
  }

  /** Everything together: each test narrows the windows for the others until nothing moves. */
  byNarrowing(deadline: Minute, rounds: number): boolean {
    return this.byPath(deadline) || this.#narrows(deadline, rounds);
  }

  /**
   * Supposes that a task lies in one part of its window and narrows from there; what is refuted is cut off (shaving:
   * Martin and Shmoys 1996, from memory). First halves, then smaller parts, as long as something gives.
   *
   * @param probes how many suppositions to try
   */
  byShaving(deadline: Minute, rounds: number, probes: number, stop: () => boolean): boolean {
    if (this.byNarrowing(deadline, rounds)) return true;
    const { release, due, earlyStart, lateStart } = this.#pass;
    const rigid = this.#live.filter(
      (i) => this.#reach.rigid[i] && this.problem.tasks[i].progress.kind === 'waiting',
    );
    const kept = { release: release.slice(), due: due.slice() };
    const restore = () => {
      release.set(kept.release);
      due.set(kept.due);
      this.#pass.forward();
      return !this.#windowsOpen(deadline);
    };
    const keep = () => {
      if (restore() || this.#narrows(deadline, rounds)) return true;
      kept.release.set(release);
      kept.due.set(due);
      return false;
    };
    const refuted = (suppose: () => void) => {
      suppose();
      this.#pass.forward();
      const no = !this.#windowsOpen(deadline) || this.#narrows(deadline, rounds);
      probes--;
      return no;
    };
    for (let part = 1; part <= SMALLEST_PART; part *= 2) {
      for (let gave = true; gave;) {
        gave = false;
        for (const i of rigid) {
          if (probes <= 0 || stop()) return false;
          if (restore()) return true;
          const length = this.#reach.amount[i];
          const [first, last] = [earlyStart[i], lateStart[i]];
          if (last <= first) continue;
          const step = Math.floor((last - first) / (2 * part));
          if (refuted(() => (due[i] = Math.min(due[i], first + step + length)))) {
            kept.release[i] = Math.max(kept.release[i], first + step + 1);
            if (keep()) return true;
            gave = true;
          } else restore();
          if (refuted(() => (release[i] = Math.max(release[i], last - step)))) {
            kept.due[i] = Math.min(kept.due[i], last - step - 1 + length);
            if (keep()) return true;
            gave = true;
          }
        }
      }
    }
    return false;
  }

  #narrows(deadline: Minute, rounds: number): boolean {
    const { energies, back, spans } = this.#tests;
    const raised = new Uint8Array(this.#windows.from.length);
    const lowered = new Uint8Array(this.#windows.from.length);
    for (let round = 0; round < rounds; round++) {
      this.#read();
      raised.fill(0);
      lowered.fill(0);
      if (!this.#pushPairs(raised, lowered)) return true;
      for (const energy of energies) if (!energy.push(this.#windows, raised)) return true;
      this.#turn();
      for (const energy of back) if (!energy.push(this.#turned, lowered)) return true;
      if (!this.#write(raised, lowered, spans)) break;
      this.#pass.forward();
      if (!this.#windowsOpen(deadline)) return true;
    }
    return (
      this.#shortOfSlots() !== undefined ||
      this.#tests.skills.shortage(this.#pass.earlyStart, this.#pass.lateFinish) !== null
    );
  }

  /** Hands raised starts and lowered ends on to the network; false when none moved. */
  #write(raised: Uint8Array, lowered: Uint8Array, spans: OpenSpan[]): boolean {
    const { release, due } = this.#pass;
    const { calendar } = this;
    let moved = false;
    const raise = (i: number, t: Minute) => {
      if (this.problem.tasks[i].progress.kind !== 'waiting' || t <= release[i]) return;
      release[i] = t;
      moved = true;
    };
    const lower = (i: number, t: Minute) => {
      if (t >= due[i]) return;
      due[i] = t;
      moved = true;
    };
    const latest = (at: number) => Math.min(this.#windows.to[at], calendar.total - this.#turned.from[at]);
    for (const i of this.#live) {
      if (raised[i]) raise(i, calendar.startOf(this.#windows.from[i]));
      if (lowered[i]) lower(i, calendar.endOf(latest(i)));
    }
    spans.forEach(({ opener, closer }, k) => {
      const at = this.problem.tasks.length + k;
      if (raised[at]) raise(opener, calendar.endOf(this.#windows.from[at]));
      if (lowered[at]) lower(closer, calendar.startOf(latest(at)));
    });
    return moved;
  }

  #shortOfSlots(): WholePieces | undefined {
    const from = this.#pass.earlyStart.map((t) => Math.max(t, this.problem.now));
    return this.#tests.pieces.find((pieces) => !pieces.holds(from, this.#pass.lateFinish));
  }

  #windowsOpen(deadline: Minute): boolean {
    const { earlyStart, earlyFinish, lateStart, lateFinish } = this.#pass;
    this.#pass.backward(deadline);
    for (const i of this.#live) {
      if (lateFinish[i] < earlyFinish[i]) return false;
      if (lateStart[i] < earlyStart[i] && this.problem.tasks[i].progress.kind === 'waiting') return false;
    }
    return true;
  }

  #read(): void {
    const { earlyStart, lateFinish } = this.#pass;
    for (const i of this.#live) {
      this.#windows.from[i] = this.calendar.worked(Math.max(earlyStart[i], this.problem.now));
      this.#windows.to[i] = this.calendar.worked(lateFinish[i]);
    }
    this.#tests.spans.forEach(({ opener, closer }, k) => {
      const at = this.problem.tasks.length + k;
      this.#windows.from[at] = this.calendar.worked(Math.max(earlyStart[opener], this.problem.now));
      this.#windows.to[at] = this.calendar.worked(lateFinish[closer]);
    });
  }

  #turn(): void {
    const { from, to } = this.#windows;
    for (let i = 0; i < from.length; i++) {
      this.#turned.from[i] = this.calendar.total - to[i];
      this.#turned.to[i] = this.calendar.total - from[i];
    }
  }

  /** Two that can't run side by side: where one can't be first, the other is. */
  #pushPairs(raised: Uint8Array, lowered: Uint8Array): boolean {
    const { from, to } = this.#windows;
    for (const { a, b, minutesA, minutesB } of this.#tests.pairs) {
      const aFirst = from[a] + minutesA + minutesB <= to[b];
      const bFirst = from[b] + minutesB + minutesA <= to[a];
      if (!aFirst && !bFirst) return false;
      if (aFirst && bFirst) continue;
      const [first, second, length, other] = aFirst ? [a, b, minutesA, minutesB] : [b, a, minutesB, minutesA];
      if (from[second] < from[first] + length) {
        from[second] = from[first] + length;
        raised[second] = 1;
      }
      if (to[first] > to[second] - other) {
        to[first] = to[second] - other;
        lowered[first] = 1;
      }
    }
    return true;
  }
}

function bottleneckOf(
  { load, needed, there }: Energy | WholePieces,
  from: Minute,
  to: Minute,
): Bottleneck | null {
  const { name } = load;
  const short =
    'people' in name ? name : 'tool' in name ? { skills: [], people: [], tools: [name.tool] } : null;
  return short && { ...short, needed: Math.round(needed), there: Math.round(there), from, to };
}

/** Parts of half a window down to which shaving goes. */
const SMALLEST_PART = 8;

interface Tests {
  energies: Energy[];
  /** The same with time turned round, which lowers latest ends. */
  back: Energy[];
  pieces: WholePieces[];
  skills: SkillLoad;
  pairs: Pair[];
  spans: OpenSpan[];
}

function windowsFor(size: number): Windows {
  return { from: new Float64Array(size), to: new Float64Array(size) };
}

function testsFor(problem: Problem, reach: Reach, order: Int32Array): Tests {
  const open = openSpansOf(problem, reach, order);
  const conflicts = conflictsOf(problem, reach, order);
  const loads = [...loadsOf(problem, reach), ...conflicts.loads, ...open.loads];
  const starts = Math.max(
    24,
    Math.min(400, Math.round(4e6 / (problem.tasks.length + 1) / (loads.length + 1))),
  );
  return {
    energies: loads.map((load) => new Energy(load, starts)),
    back: loads.map((load) => new Energy(mirrored(load), starts)),
    pieces: loads.map((load) => new WholePieces(problem, load, reach.calendar)),
    skills: new SkillLoad(problem, reach),
    pairs: pairsOf(loads, conflicts.pairs, reach, problem.tasks.length + open.spans.length),
    spans: open.spans,
  };
}

interface Pair {
  a: number;
  b: number;
  minutesA: number;
  minutesB: number;
}

/** More tasks than that on one load are not paired: their number grows with the square. */
const MOST_IN_PAIRS = 200;

/** Tasks in one piece that ask together for more than there ever is of something. */
function pairsOf(loads: Load[], conflicts: [number, number][], reach: Reach, size: number): Pair[] {
  const pairs = new Map<number, Pair>();
  for (const [a, b] of conflicts) {
    if (reach.lies[a] !== ONE_GO || reach.lies[b] !== ONE_GO) continue;
    pairs.set(Math.min(a, b) * size + Math.max(a, b), {
      a,
      b,
      minutesA: reach.leastMinutes(a),
      minutesB: reach.leastMinutes(b),
    });
  }
  for (const load of loads) {
    const items = load.items.filter((item) => item.whole);
    if (items.length > MOST_IN_PAIRS) continue;
    items.forEach((one, k) => {
      for (const other of items.slice(k + 1)) {
        if (one.height + other.height <= load.most) continue;
        const [x, y] = one.task < other.task ? [one, other] : [other, one];
        pairs.set(x.task * size + y.task, { a: x.task, b: y.task, minutesA: x.minutes, minutesB: y.minutes });
      }
    });
  }
  return [...pairs.values()];
}
