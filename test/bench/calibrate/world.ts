import {
  boundless,
  solve,
  type MetTurnout,
  type Plan,
  type Problem,
  type Progress,
  type Segment,
  type Tally,
} from '@ribband/engine';
import { normalBelow, normalQuantile } from './normal.js';
import type { SmallYard } from './small-yard.js';

/**
 * A small yard's course as it really goes, another way than the forecast replays it: on each morning, and again
 * whenever something goes otherwise than planned, the engine itself plans with the people who came, and the crews
 * work by that plan at the true paces, minute by minute.
 */
export class World {
  /** What is left of each task: pieces of a work, minutes of time that passes. */
  readonly left: Float64Array;
  readonly progress: Progress[];
  /** By kind, in order of time. */
  readonly tallies: Tally[][];
  readonly met: MetTurnout[] = [];
  readonly came: Int32Array;
  readonly expected: Int32Array;
  /** The minute at which the last task was done, or null. */
  ready: number | null = null;
  turnout = 0;

  readonly yard: SmallYard;
  /** Minutes still to be lost in taking a stopped task up again. */
  readonly #setUp: Float64Array;
  readonly #sentBack: Uint8Array;
  readonly #late: Float64Array;
  /** What was done of each kind in the turnout that goes on. */
  readonly #today: Tally[];

  constructor(yard: SmallYard) {
    const { problem, pieces, stock, truth } = yard;
    this.yard = yard;
    this.left = Float64Array.from(problem.tasks, ({ effort }, i) =>
      effort.kind === 'work' ? pieces[i] : effort.kind === 'elapsed' ? effort.minutes : 0,
    );
    this.progress = problem.tasks.map(() => ({ kind: 'waiting' }));
    this.tallies = yard.books.map(() => []);
    this.#today = yard.books.map(() => ({ count: 0, hours: 0 }));
    this.came = new Int32Array(problem.people.length);
    this.expected = new Int32Array(problem.people.length);
    this.#setUp = new Float64Array(problem.tasks.length);
    this.#sentBack = new Uint8Array(problem.tasks.length);
    this.#late = Float64Array.from(problem.tasks, (_, i) =>
      stock[i] !== 0 && truth.dice.chance(truth.lateChance)
        ? -Math.log(1 - truth.dice.share()) * truth.lateDays * 1440
        : 0,
    );
  }

  get now(): number {
    const { turnouts } = this.yard.problem;
    return turnouts[Math.min(this.turnout, turnouts.length - 1)].start;
  }

  /** What the yard knows before its next turnout, efforts by the paces given. */
  problemNow(paces: readonly number[]): Problem {
    return this.#problemAt(this.now, paces);
  }

  /** Lives through the next turnout. @param paces what the crew goes by when it plans its morning */
  live(paces: readonly number[]): void {
    const { problem, truth } = this.yard;
    const w = this.turnout;
    const { start, end } = problem.turnouts[w];
    this.#timePasses(start);
    for (const tally of this.#today) tally.count = tally.hours = 0;
    const luck = truth.byTurnout.map((spread) => truth.dice.factor(spread));
    const here = this.#muster(w);
    let t = start;
    // No day has more surprises than this; what is left of it then goes by plan.
    for (let calls = 0; t < end && calls < 40 && !this.#allDone(); calls++)
      t = this.#call(t, w, here, paces, luck);
    this.#today.forEach(({ count, hours }, k) => {
      if (hours > 0) this.tallies[k].push({ count: Math.round(count), hours });
    });
    this.turnout++;
    this.#finishUp();
  }

  #muster(w: number): Uint8Array {
    const { problem, truth } = this.yard;
    const shared = Math.sqrt(truth.together) * truth.dice.normal();
    const expected: MetTurnout['expected'] = [];
    const here = new Uint8Array(problem.people.length);
    problem.people.forEach(({ stays }, p) => {
      if (!stays.some(({ turnout }) => turnout === w)) return;
      const quantile = normalQuantile(truth.showUp[p]);
      const came = truth.dice.share() < normalBelow((quantile - shared) / Math.sqrt(1 - truth.together));
      here[p] = came ? 1 : 0;
      const chance = (4 + this.came[p]) / (5 + this.expected[p]);
      expected.push({ chance, came });
      this.expected[p]++;
      if (came) this.came[p]++;
    });
    this.met.push({ expected });
    return here;
  }

  /** Plans from minute t with who is here and works by it up to the first surprise; returns its minute. */
  #call(t: number, w: number, here: Uint8Array, paces: readonly number[], luck: number[]): number {
    const { problem, kind, truth } = this.yard;
    const { end } = problem.turnouts[w];
    const outcome =
      this.#plan(t, w, here, paces, AHEAD) ?? this.#plan(t, w, here, paces, problem.turnouts.length);
    if (outcome === null) throw new Error(`yard without a plan at minute ${String(t)}`);
    const today = outcome.segments.filter((segment) => segment.start < end);
    this.#lendHands(t, today, here);
    const surprise = Math.min(end, this.#firstSurprise(t, end, today, luck));
    for (const segment of today) {
      const { task, start, crew } = segment;
      if (start > surprise || (start === surprise && surprise < end && segment.end > start)) continue;
      const { effort } = problem.tasks[task];
      const stands = this.progress[task];
      if (effort.kind === 'hold') {
        this.#done(task, start);
        continue;
      }
      if (stands.kind === 'waiting') this.progress[task] = { kind: 'under way', startedAt: start };
      if (effort.kind === 'elapsed') {
        this.left[task] += this.#late[task];
        this.#late[task] = 0;
        continue;
      }
      const until = Math.min(segment.end, surprise);
      const lost = Math.min(until - start, this.#setUp[task]);
      this.#setUp[task] -= lost;
      const minutes = until - start - lost;
      if (minutes <= 0) continue;
      const k = kind[task];
      const hands = handsOf(problem.tasks[task].crew.efficient, crew.length);
      const done = Math.min(
        this.left[task],
        (minutes / 60) * hands * ((truth.pace[k] * luck[k]) / truth.hard[task]),
      );
      this.left[task] -= done;
      this.#today[k].count += done;
      this.#today[k].hours += (minutes / 60) * hands;
      if (this.left[task] <= 1e-6) this.#shown(task, until);
    }
    if (surprise >= end) {
      problem.tasks.forEach((_, i) => {
        if (this.progress[i].kind === 'under way') this.#setUp[i] = problem.tasks[i].setUpMinutes;
      });
    }
    this.#timePasses(surprise);
    return surprise <= t ? t + 1 : surprise;
  }

  /** Whoever the plan leaves idle joins work that begins now and has room. */
  #lendHands(t: number, today: Segment[], here: Uint8Array): void {
    const { problem } = this.yard;
    const busy = new Set(today.flatMap(({ crew }) => crew.map(({ person }) => person)));
    here.forEach((is, person) => {
      if (is === 0 || busy.has(person)) return;
      const most = (task: number) => problem.tasks[task].crew.max;
      const join = today.find(
        ({ task, start, crew }) => start === t && crew.length > 0 && crew.length < most(task),
      );
      join?.crew.push({ person, seat: null });
    });
  }

  /** The engine's plan from minute t on, looking so many turnouts ahead, with those who are here and all later ones. */
  #plan(t: number, w: number, here: Uint8Array, paces: readonly number[], ahead: number): Plan | null {
    const { problem } = this.yard;
    const morning = this.#problemAt(t, paces);
    const last = Math.min(problem.turnouts.length, w + ahead);
    morning.turnouts = problem.turnouts
      .slice(w, last)
      .map((turnout, k) => (k === 0 ? { ...turnout, start: t } : turnout));
    morning.horizon = problem.turnouts[last - 1].end;
    morning.people = problem.people.map((person, p) => ({
      ...person,
      stays: person.stays.flatMap((stay) => {
        if (stay.turnout < w || stay.turnout >= last || (stay.turnout === w && here[p] === 0)) return [];
        const from = stay.turnout === w ? Math.max(t, stay.from) : stay.from;
        return [{ ...stay, turnout: stay.turnout - w, from, showUp: 1 }];
      }),
    }));
    const outcome = solve(morning, { seed: 1, schedules: SCHEDULES, other: boundless });
    return outcome.kind === 'plan' ? outcome.plan : null;
  }

  /** The first minute at which some work is done, or at which it should be done and is not. */
  #firstSurprise(t: number, turnoutEnd: number, today: Segment[], luck: number[]): number {
    const { problem, kind, truth } = this.yard;
    let first = Infinity;
    for (const { task, start, end, crew } of today) {
      const { effort } = problem.tasks[task];
      if (effort.kind !== 'work') continue;
      const k = kind[task];
      const lost = this.#setUp[task];
      const hands = handsOf(problem.tasks[task].crew.efficient, crew.length);
      const real = (truth.pace[k] * luck[k]) / truth.hard[task];
      const doneAt = start + lost + Math.ceil((this.left[task] / real / hands) * 60);
      if (doneAt <= end) first = Math.min(first, Math.max(t + 1, doneAt));
      // It should be done, or its crew go on to something else, and it is not done.
      else if (end < turnoutEnd) first = Math.min(first, Math.max(t + 1, end));
    }
    return first;
  }

  #timePasses(until: number): void {
    this.yard.problem.tasks.forEach(({ effort }, i) => {
      const stands = this.progress[i];
      if (effort.kind !== 'elapsed' || stands.kind !== 'under way') return;
      const end = stands.startedAt + this.left[i];
      if (end <= until) this.#done(i, Math.round(end));
    });
  }

  #shown(task: number, t: number): void {
    const { truth, pieces } = this.yard;
    if (this.#sentBack[task] === 0 && truth.dice.chance(truth.reworkChance)) {
      this.#sentBack[task] = 1;
      this.left[task] = truth.reworkShare * pieces[task];
      return;
    }
    this.#done(task, t);
  }

  #done(task: number, t: number): void {
    const stands = this.progress[task];
    this.left[task] = 0;
    this.progress[task] = {
      kind: 'done',
      startedAt: stands.kind === 'under way' ? stands.startedAt : t,
      endedAt: t,
    };
  }

  #allDone(): boolean {
    return this.progress.every(({ kind }) => kind === 'done');
  }

  #finishUp(): void {
    // Time that passes after the last turnout of work counts too.
    const waiting = this.progress.some(
      (stands, i) => stands.kind !== 'done' && this.yard.problem.tasks[i].effort.kind !== 'elapsed',
    );
    if (!waiting && this.progress.every(({ kind }) => kind !== 'waiting')) this.#timePasses(Infinity);
    if (!this.#allDone()) return;
    this.ready = Math.max(...this.progress.map((stands) => (stands.kind === 'done' ? stands.endedAt : 0)));
  }

  #problemAt(t: number, paces: readonly number[]): Problem {
    const { problem, kind } = this.yard;
    return {
      ...problem,
      now: t,
      tasks: problem.tasks.map((task, i) => {
        const progress = this.progress[i];
        const setUp = this.#setUp[i] * task.crew.efficient;
        if (task.effort.kind === 'work') {
          const personMinutes =
            progress.kind === 'done'
              ? 0
              : Math.max(1, Math.ceil((this.left[i] / paces[kind[i]]) * 60 - 1e-6)) + setUp;
          return { ...task, effort: { kind: 'work', personMinutes }, progress };
        }
        if (task.effort.kind === 'elapsed' && progress.kind === 'under way') {
          const minutes = Math.max(1, Math.ceil(progress.startedAt + this.left[i] - t));
          return { ...task, effort: { kind: 'elapsed', minutes }, progress };
        }
        return { ...task, progress };
      }),
    };
  }
}

/** How many turnouts a morning's plan looks ahead, where that is enough for a plan, and what it may spend. */
const AHEAD = 24;
const SCHEDULES = 25;

/** What a crew counts for: hands beyond the efficient crew count half. */
function handsOf(efficient: number, size: number): number {
  return size <= efficient ? size : efficient + (size - efficient) / 2;
}
