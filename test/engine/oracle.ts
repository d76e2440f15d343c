import type { Minute, Plan, Problem, Segment, Task } from '@ribband/engine';
import { lagIsKept } from './verify-plan.js';

/**
 * The earliest ready minute of a very small yard, by trying everything.
 *
 * Time goes minute by minute (the grid of the problem itself, so nothing is lost); at every minute every set of crews,
 * starts and pauses that the rules allow is tried, and equal states are kept once. The first minute at which a state
 * has everything done is the optimum. Meant for up to 7 tasks, 4 people and some 40 minutes; it gives up, and says so,
 * beyond `mostStates` states, or ten times as many steps between them.
 */
export type Found = { kind: 'ready'; ready: Minute; plan: Plan } | { kind: 'no plan' } | { kind: 'gave up' };

interface State {
  /** Minute each task started and ended, or null. */
  start: (Minute | null)[];
  end: (Minute | null)[];
  left: number[];
  /** Crew (as bits) in the minute before, or -1 where the task stood still. */
  crew: number[];
  setUp: number[];
  inTurnout: number[];
  inWeek: number[];
  /** Firm postings kept so far, as bits. */
  kept: number;
  from: State | null;
  /** What was done in the minute after `from`: crew a task, or -1. */
  did: number[];
  zero: { task: number; t: Minute; crew: number; turnout: number | null }[];
}

const WEEK = 7 * 24 * 60;

export function oracle(problem: Problem, mostStates = 60_000): Found {
  return new Oracle(problem, mostStates).run();
}

class Oracle {
  readonly #tasks: Task[];
  #states = new Map<string, State>();
  #steps = 0;

  constructor(
    readonly problem: Problem,
    readonly mostStates: number,
  ) {
    this.#tasks = problem.tasks;
  }

  run(): Found {
    const { problem } = this;
    const first: State = {
      start: this.#tasks.map(({ progress }) => (progress.kind === 'waiting' ? null : progress.startedAt)),
      end: this.#tasks.map(({ progress }) => (progress.kind === 'done' ? progress.endedAt : null)),
      left: this.#tasks.map(({ effort }) =>
        effort.kind === 'work' ? effort.personMinutes : effort.kind === 'hold' ? 0 : effort.minutes,
      ),
      crew: this.#tasks.map(() => -1),
      setUp: this.#tasks.map(() => 0),
      inTurnout: problem.people.map(() => 0),
      inWeek: problem.people.map(() => 0),
      kept: 0,
      from: null,
      did: [],
      zero: [],
    };
    this.#states.set('', first);
    let tried = 0;
    for (let t = problem.now; t <= problem.horizon; t++) {
      const now = [...this.#states.values()];
      this.#states = new Map();
      const settled = now.flatMap((state) => this.#marks(state, t));
      for (const state of settled) {
        if (
          state.end.every((end) => end !== null) &&
          this.#inOrder(state, t) &&
          this.#openingsHold(state, t, true) &&
          this.#postingsKept(state, t)
        ) {
          return { kind: 'ready', ready: Math.max(...state.end), plan: this.#plan(state) };
        }
      }
      for (const state of settled) if (this.#postingsKept(state, t)) this.#minute(state, t);
      tried += this.#states.size;
      if (tried > this.mostStates || this.#steps > 10 * this.mostStates) return { kind: 'gave up' };
    }
    return { kind: 'no plan' };
  }

  /** Everything without length that may happen at minute t, in any combination. */
  #marks(state: State, t: Minute): State[] {
    let reached = [state];
    this.#tasks.forEach((task, i) => {
      if (state.end[i] !== null || !this.#isMark(task)) return;
      if (task.notBefore !== null && t < task.notBefore && task.progress.kind === 'waiting') return;
      reached = reached.flatMap((one) => {
        const done = this.#sayings(task, t).map((by) => {
          const next = { ...one, start: [...one.start], end: [...one.end] };
          next.start[i] ??= t;
          next.end[i] = t;
          next.zero = [...one.zero, { task: i, t, ...by }];
          next.kept |= this.#keeps(i, by.turnout, by.crew);
          return next;
        });
        return [one, ...done];
      });
    });
    return reached;
  }

  #isMark({ effort }: Task): boolean {
    if (effort.kind === 'hold') return true;
    return effort.kind === 'work' ? effort.personMinutes <= 0 : effort.minutes === 0;
  }

  /** Who may give a say-so at minute t; somebody leaving or coming at that minute is there. */
  #sayings(task: Task, t: Minute): { crew: number; turnout: number | null }[] {
    if (task.effort.kind !== 'hold' || (task.crew.min === 0 && task.seats.length === 0)) {
      return [{ crew: 0, turnout: null }];
    }
    return this.problem.turnouts.flatMap((turnout, w) => {
      if (t < turnout.start || t > turnout.end) return [];
      const there = this.#bits((p) =>
        this.problem.people[p].stays.some((s) => s.turnout === w && s.showUp > 0 && s.from <= t && t <= s.to),
      );
      return this.#crews(task, there, t).map((crew) => ({ crew, turnout: w }));
    });
  }

  #bits(holds: (p: number) => boolean): number {
    return this.problem.people.reduce((bits, _, p) => (holds(p) ? bits | (1 << p) : bits), 0);
  }

  /** Every crew out of those there that may work on the task in the minute from t. */
  #crews(task: Task, there: number, t: Minute): number[] {
    const crews: number[] = [];
    for (let crew = there; ; crew = (crew - 1) & there) {
      if (this.#fits(task, crew, t)) crews.push(crew);
      if (crew === 0) return crews;
    }
  }

  #fits(task: Task, crew: number, t: Minute): boolean {
    const hands = this.#hands(crew);
    if (hands.length < task.crew.min || hands.length > task.crew.max) return false;
    if (task.effort.kind === 'work' && hands.length === 0) return false;
    if (!hands.every((p) => task.clearances.every((c) => this.#cleared(p, c, t)))) return false;
    const bests = hands.map((p) => this.#best(task, p));
    if (bests.includes(1) && !bests.some((level) => level >= 2)) return false;
    return this.seated(task, hands, t) !== null;
  }

  #hands(crew: number): number[] {
    return this.problem.people.map((_, p) => p).filter((p) => crew & (1 << p));
  }

  #cleared(p: number, clearance: number, t: Minute): boolean {
    return this.problem.people[p].clearances.some(
      (held) => held.clearance === clearance && (held.until === null || held.until >= t),
    );
  }

  #best(task: Task, p: number): number {
    if (task.seats.length === 0) return 2;
    return Math.max(...task.seats.map((seat) => this.problem.people[p].levels[seat.skill]));
  }

  /** A person for each place of each seat, trying all; null where it can't be. */
  seated(task: Task, hands: number[], t: Minute): Map<number, number> | null {
    const places = task.seats.flatMap((seat, s) => Array.from({ length: seat.count }, () => ({ seat, s })));
    const taken = new Map<number, number>();
    const fill = (k: number): boolean => {
      if (k === places.length) return true;
      const { seat, s } = places[k];
      for (const p of hands) {
        if (taken.has(p) || this.problem.people[p].levels[seat.skill] < seat.level) continue;
        if (!seat.clearances.every((c) => this.#cleared(p, c, t))) continue;
        taken.set(p, s);
        if (fill(k + 1)) return true;
        taken.delete(p);
      }
      return false;
    };
    return fill(0) ? taken : null;
  }

  /** Every way to spend the minute from t, and the states that it leads to. */
  #minute(state: State, t: Minute): void {
    const { problem } = this;
    if (t === problem.horizon) return;
    const w = problem.turnouts.findIndex((one) => one.start <= t && t < one.end);
    const starts = w >= 0 && problem.turnouts[w].start === t;
    const newWeek = t % WEEK === 0;
    const inTurnout = starts ? state.inTurnout.map(() => 0) : state.inTurnout;
    const inWeek = newWeek ? state.inWeek.map(() => 0) : state.inWeek;
    const there = this.#bits((p) => {
      const person = problem.people[p];
      if (person.minutesATurnout !== null && inTurnout[p] >= person.minutesATurnout) return false;
      if (person.minutesAWeek !== null && inWeek[p] >= person.minutesAWeek) return false;
      return person.stays.some((s) => s.turnout === w && s.showUp > 0 && s.from <= t && t < s.to);
    });
    const free = problem.tools.map(
      (tool) => tool.spans.find((span) => span.from <= t && t < span.to)?.capacity ?? tool.capacity,
    );
    const did = this.#tasks.map(() => -1);
    const choose = (i: number, left: number): void => {
      if (this.#steps > 10 * this.mostStates) return;
      if (i === this.#tasks.length) {
        this.#step({ ...state, inTurnout, inWeek }, did, t, w);
        return;
      }
      const task = this.#tasks[i];
      const choices = this.#choices(state, i, t, w, there);
      for (const crew of choices) {
        if (crew > 0 && (crew & left) !== crew) continue;
        if (crew >= 0 && task.tools.some(({ tool, count }) => free[tool] < count)) continue;
        did[i] = crew;
        if (crew >= 0) for (const { tool, count } of task.tools) free[tool] -= count;
        choose(i + 1, crew > 0 ? left & ~crew : left);
        if (crew >= 0) for (const { tool, count } of task.tools) free[tool] += count;
      }
      did[i] = -1;
    };
    choose(0, there);
  }

  /** Crews that task i may have in the minute from t; -1 is standing still. */
  #choices(state: State, i: number, t: Minute, w: number, there: number): number[] {
    const task = this.#tasks[i];
    if (state.end[i] !== null || this.#isMark(task)) return [-1];
    const waiting = state.start[i] === null;
    if (waiting && task.notBefore !== null && t < task.notBefore) return [-1];
    const running = state.crew[i] >= 0;
    if (task.effort.kind === 'elapsed') {
      if (running) return [0];
      return waiting ? [-1, 0] : [0];
    }
    const begins = w >= 0 && this.problem.turnouts[w].start === t;
    if (w < 0) return task.oneGo && running ? [] : [-1];
    if (task.oneGo && running)
      return begins ? [] : [state.crew[i]].filter((c) => (c & there) === c && this.#fits(task, c, t));
    const crews = this.#crews(task, there, t);
    const mayStandStill = !running || begins || this.#someoneLeaves(state, i, t, w);
    return mayStandStill ? [-1, ...crews] : crews;
  }

  /** A hand of the minute before has to go, or a tool is taken away. */
  #someoneLeaves(state: State, i: number, t: Minute, w: number): boolean {
    const leaves = this.#hands(state.crew[i]).some((p) => {
      const person = this.problem.people[p];
      return (
        person.stays.some((s) => s.turnout === w && s.to === t) ||
        person.clearances.some((held) => held.until !== null && held.until + 1 === t) ||
        state.inTurnout[p] === person.minutesATurnout ||
        state.inWeek[p] === person.minutesAWeek
      );
    });
    const spans = this.#tasks[i].tools.flatMap(({ tool }) => this.problem.tools[tool].spans);
    return leaves || spans.some((span) => span.from === t || span.to === t);
  }

  /** Works the minute off and keeps the state if every rule about starts, ends and openings holds. */
  #step(state: State, did: number[], t: Minute, w: number): void {
    this.#steps++;
    const next: State = {
      ...state,
      start: [...state.start],
      end: [...state.end],
      left: [...state.left],
      crew: [...did],
      setUp: [...state.setUp],
      inTurnout: [...state.inTurnout],
      inWeek: [...state.inWeek],
      from: state,
      did: [...did],
      zero: [],
    };
    did.forEach((crew, i) => {
      if (crew >= 0) next.start[i] ??= t;
    });
    if (!this.#inOrder(next, t) || !this.#openingsHold(next, t)) return;
    did.forEach((crew, i) => {
      if (crew < 0) return;
      const task = this.#tasks[i];
      const stopped = state.crew[i] < 0 || (w >= 0 && this.problem.turnouts[w].start === t);
      const hasWorked =
        state.start[i] !== null &&
        !(task.progress.kind === 'under way' && state.left[i] === this.#amount(task));
      if (stopped && hasWorked && task.effort.kind !== 'elapsed') next.setUp[i] = task.setUpMinutes;
      if (next.setUp[i] > 0) next.setUp[i]--;
      else next.left[i] -= task.effort.kind === 'work' ? this.#rate(task, crew) : 1;
      for (const p of this.#hands(crew)) {
        next.inTurnout[p]++;
        next.inWeek[p]++;
      }
      next.kept |= this.#keeps(i, w, crew);
      if (next.left[i] < 1e-6) {
        next.left[i] = 0;
        next.end[i] = t + 1;
        next.crew[i] = -1;
      }
    });
    // Before the key: it forgets dates that no link waits for any more.
    if (!this.#inOrder(next, t)) return;
    const key = this.#key(next);
    if (!this.#states.has(key)) this.#states.set(key, next);
  }

  #amount({ effort }: Task): number {
    return effort.kind === 'work' ? effort.personMinutes : effort.kind === 'hold' ? 0 : effort.minutes;
  }

  #rate(task: Task, crew: number): number {
    const shares = this.#hands(crew).map((p) => (this.#best(task, p) === 1 ? task.learnerShare : 1));
    shares.sort((a, b) => b - a);
    return shares.reduce(
      (sum, share, k) => sum + share * (k < task.crew.efficient ? 1 : task.extraHandShare),
      0,
    );
  }

  /** Links between what has happened by minute t and what can only happen later. */
  #inOrder(state: State, t: Minute): boolean {
    const { problem } = this;
    for (const link of problem.links) {
      const [from, to] = link.relation.split('-to-');
      const { kind } = this.#tasks[link.after].progress;
      if (kind === 'done' || (kind === 'under way' && to === 'start')) continue;
      const b = (to === 'start' ? state.start : state.end)[link.after];
      const a = (from === 'start' ? state.start : state.end)[link.before];
      if (b !== null && !lagIsKept(problem, link, a ?? t + 1, b)) return false;
    }
    return this.problem.elements.every((_, e) => {
      const opener = this.#tasks.findIndex((task) => task.opens.includes(e));
      const closer = this.#tasks.findIndex((task) => task.closes.includes(e));
      const shut = closer < 0 ? null : state.end[closer];
      if (opener < 0 || shut === null) return true;
      return shut >= (state.start[opener] ?? t + 1);
    });
  }

  /** Limits at minute t; once all is done, also those that only come into force later. */
  #openingsHold(state: State, minute: Minute, isOver = false): boolean {
    const { elements, openingLimits } = this.problem;
    const opener = elements.map((_, e) => this.#tasks.findIndex((task) => task.opens.includes(e)));
    const closer = elements.map((_, e) => this.#tasks.findIndex((task) => task.closes.includes(e)));
    const isOpen = (e: number) => {
      if (opener[e] < 0 && closer[e] < 0) return false;
      const start = opener[e] < 0 ? -Infinity : state.start[opener[e]];
      return start !== null && (closer[e] < 0 || state.end[closer[e]] === null);
    };
    return openingLimits.every((limit) => {
      const from = limit.from ?? -Infinity;
      const t = isOver ? Math.max(minute, from) : minute;
      if (t < from) return true;
      const opens = limit.elements.some(
        (e) =>
          opener[e] >= 0 &&
          this.#tasks[opener[e]].progress.kind === 'waiting' &&
          (state.start[opener[e]] === t || t === from) &&
          isOpen(e),
      );
      return !opens || limit.elements.filter(isOpen).length <= limit.atMost;
    });
  }

  #keeps(task: number, turnout: number | null, crew: number): number {
    return this.problem.posted.reduce(
      (bits, one, n) =>
        one.firm && one.task === task && one.turnout === turnout && crew & (1 << one.person)
          ? bits | (1 << n)
          : bits,
      0,
    );
  }

  #postingsKept(state: State, t: Minute): boolean {
    const { posted, turnouts, now } = this.problem;
    const over = state.end.every((end) => end !== null);
    return posted.every(({ task, turnout, firm }, n) => {
      if (!firm || this.#tasks[task].progress.kind === 'done' || turnouts[turnout].end <= now) return true;
      return (turnouts[turnout].end > t && !over) || (state.kept & (1 << n)) !== 0;
    });
  }

  /** What of a state still matters. When something happened matters only while a link waits for its other end. */
  #key(state: State): string {
    const when = (known: (Minute | null)[], other: (Minute | null)[], which: string) =>
      known.map((t, i) => {
        if (t === null) return '';
        const waits = this.problem.links.some((link) => {
          const [from, to] = link.relation.split('-to-');
          if (link.before === i && from === which) return (to === which ? known : other)[link.after] === null;
          return link.after === i && to === which && (from === which ? known : other)[link.before] === null;
        });
        return waits ? t : 'x';
      });
    const { start, end } = state;
    const dates = [when(start, end, 'start'), when(end, start, 'finish')];
    return [...dates, state.left, state.crew, state.setUp, this.#counted(state), state.kept].join('|');
  }

  #counted(state: State): number[] {
    return this.problem.people.flatMap((person, p) => [
      person.minutesATurnout === null ? 0 : state.inTurnout[p],
      person.minutesAWeek === null ? 0 : state.inWeek[p],
    ]);
  }

  /** The way that led here, as a plan: minutes with one crew joined into segments. */
  #plan(last: State): Plan {
    const { problem } = this;
    const way: State[] = [];
    for (let state: State | null = last; state; state = state.from) way.unshift(state);
    const segments: Segment[] = [];
    const open: (Segment | null)[] = this.#tasks.map(() => null);
    way.forEach((state, k) => {
      const t = problem.now + k - 1;
      const w = problem.turnouts.findIndex((one) => one.start <= t && t < one.end);
      state.did.forEach((crew, i) => {
        const elapsed = this.#tasks[i].effort.kind === 'elapsed';
        const before = open[i];
        open[i] = null;
        if (crew < 0) return;
        const hands = this.#seats(this.#tasks[i], crew, t);
        const turnout = elapsed ? null : w;
        const same = before?.turnout === turnout && before.end === t;
        if (same && JSON.stringify(before.crew) === JSON.stringify(hands)) {
          before.end = t + 1;
          open[i] = before;
          return;
        }
        open[i] = { task: i, turnout, start: t, end: t + 1, crew: hands };
        segments.push(open[i]);
      });
      for (const { task, t: at, crew, turnout } of state.zero) {
        segments.push({ task, turnout, start: at, end: at, crew: this.#seats(this.#tasks[task], crew, at) });
      }
    });
    segments.sort((a, b) => a.start - b.start);
    const ready = Math.max(...(last.end as number[]));
    const slot = problem.aim.slots.findIndex((start) => start >= ready);
    const kept = problem.posted.filter(
      (one) =>
        this.#tasks[one.task].progress.kind === 'done' ||
        problem.turnouts[one.turnout].end <= problem.now ||
        segments.some(
          (s) =>
            s.task === one.task && s.turnout === one.turnout && s.crew.some((h) => h.person === one.person),
        ),
    );
    return {
      format: 'ribband-plan/1',
      ready,
      slot: slot < 0 ? null : slot,
      segments,
      tasks: this.#tasks.map((_, i) => ({
        start: last.start[i]!,
        end: last.end[i]!,
        float: 0,
        heldBy: { kind: 'nothing' },
      })),
      launchChain: [{ task: last.end.indexOf(ready), heldBy: { kind: 'nothing' } }],
      bound: { ready, kind: 'search', bottleneck: null },
      proved: true,
      postingsChanged: problem.posted.length - kept.length,
      schedules: 0,
    };
  }

  #seats(task: Task, crew: number, t: Minute) {
    const hands = this.#hands(crew);
    const seats = this.seated(task, hands, t);
    return hands.map((person) => ({ person, seat: seats?.get(person) ?? null }));
  }
}
