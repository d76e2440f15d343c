import { EVER, WorkCalendar } from '../calendar.js';
import { openingTies } from '../network.js';
import type { Plan } from '../plan.js';
import type { Minute, Problem, Task } from '../problem.js';
import { crowdOf, emptySet, has, Needs, put, type Crowd, type Need } from './people.js';

/**
 * The problem laid out for the inner loops: one typed array a field, links as rows of two flat tables, people as
 * bits. Made once for a search.
 *
 * The same problem can be laid out with time turned round at the horizon: turnouts and stays mirrored, links
 * reversed, openers and closers exchanged. A generation pass over the mirror is a backward pass over the problem.
 */
export interface Model {
  problem: Problem;
  mirrored: boolean;
  n: number;
  now: Minute;
  horizon: Minute;
  calendar: WorkCalendar;
  /** How a task is placed; one of `Kind`. */
  kind: Uint8Array;
  /** Minutes of a fixed or elapsed length. */
  minutes: Int32Array;
  /** Person-minutes of a work, minutes of a fixed length. */
  amount: Float64Array;
  setUp: Int32Array;
  efficient: Int32Array;
  most: Int32Array;
  extraShare: Float64Array;
  learnerShare: Float64Array;
  /** Earliest minute that the task itself allows. */
  earliest: Int32Array;
  /** Start where it is known already (done, under way), else EVER. */
  begun: Int32Array;
  ended: Int32Array;
  inLinks: Rows;
  outLinks: Rows;
  /** Every link is finish-to-start without lag. */
  plain: boolean;
  crowd: Crowd;
  needs: Need[];
  /** Index into `needs`, or -1 where nobody is needed. */
  need: Int32Array;
  /** Tools a task holds: tool and count, pair by pair. */
  toolAt: Int32Array;
  toolPairs: Int32Array;
  tools: ToolSteps[];
  presence: Presence;
  openings: Openings;
  /** Postings to keep, by task and turnout; null where there is none. */
  wished: WishedCrews | null;
  /** A forward order of the tasks that keeps every link. */
  order: Int32Array;
  /** Rank of each task in `order`. */
  place: Int32Array;
  /** True where every task is a block that one dense table of minutes can hold. */
  dense: boolean;
}

/** Placements that differ. */
export const Kind = {
  /** No length and nobody: stands where its links put it. */
  Mark: 0,
  /** Time that passes by itself. */
  Elapsed: 1,
  /** One uninterrupted segment of a set length. */
  Block: 2,
  /** One uninterrupted segment whose length the crew gives. */
  Bout: 3,
  /** A set length or a work that may stop and go on. */
  Split: 4,
  /** No length, but somebody has to be there. */
  SaySo: 5,
  Done: 6,
} as const;

/** Links of each task: row i lies between at[i] and at[i + 1]. */
export interface Rows {
  at: Int32Array;
  task: Int32Array;
  /** Bit 0: binds the end of the later task; bit 1: counts from the start of the earlier; bit 2: lag of working minutes. */
  form: Uint8Array;
  lag: Int32Array;
  /** Index of the problem's link, -1 for the tie between an opener and its closer. */
  link: Int32Array;
}

export const Form = { BindsEnd: 1, FromStart: 2, Working: 4 } as const;

/** Capacity of a tool as steps: from minute at[k] on there are free[k]. at[0] is EVER. */
export interface ToolSteps {
  at: number[];
  free: number[];
}

/** Who is there: each turnout cut into slices in which nobody comes, goes or loses a clearance. */
export interface Presence {
  /** Slices of turnout w lie between first[w] and first[w + 1]; each has one minute at which it begins. */
  first: Int32Array;
  from: Int32Array;
  /** `words` integers a slice. */
  here: Int32Array;
  /** Everybody who comes to the turnout at all. */
  ever: Int32Array;
}

export interface Openings {
  /** Limits that can bind at all. */
  limits: { index: number; elements: number[]; atMost: number }[];
  /** By element: the task, or -1. */
  opener: Int32Array;
  closer: Int32Array;
  /** By task: elements in some binding limit. */
  opens: number[][];
  closes: number[][];
}

export interface WishedCrews {
  /** Key task * turnouts + turnout. */
  firm: Map<number, Int32Array>;
  soft: Map<number, Int32Array>;
  /** Turnouts of a task's firm postings, in order of time. */
  firmTurnouts: Map<number, number[]>;
  /** By turnout: everybody with a firm posting there. */
  held: Map<number, Int32Array>;
  /** By turnout: everybody with any posting there. */
  asked: Map<number, Int32Array>;
}

export interface Layout {
  mirrored?: boolean;
  /** A plan in force, whose crews are kept where it costs nothing. */
  warm?: Plan | undefined;
}

/** Longest span in minutes that one dense table is worth making for. */
const DENSE_SPAN = 40_000;

/** @throws RangeError where the links go round in a circle; check the problem first. */
export function layOut(problem: Problem, { mirrored = false, warm }: Layout = {}): Model {
  const n = problem.tasks.length;
  const { horizon } = problem;
  const turn = (t: Minute) => (mirrored ? horizon - t : t);
  const span = (from: Minute, to: Minute) => (mirrored ? [horizon - to, horizon - from] : [from, to]);
  const turnouts = problem.turnouts.map(({ start, end }) => {
    const [from, to] = span(start, end);
    return { start: from, end: to };
  });
  if (mirrored) turnouts.reverse();
  const turnoutOf = (w: number) => (mirrored ? problem.turnouts.length - 1 - w : w);

  const ties = tiesOf(problem, mirrored);
  const crowd = crowdOf(problem);
  const needs = new Needs(problem, crowd, mirrored ? horizon : null);
  const model: Model = {
    problem,
    mirrored,
    n,
    now: mirrored ? EVER : problem.now,
    horizon: mirrored ? horizon - problem.now : horizon,
    calendar: new WorkCalendar(turnouts),
    kind: new Uint8Array(n),
    minutes: new Int32Array(n),
    amount: new Float64Array(n),
    setUp: Int32Array.from(problem.tasks, (task) => task.setUpMinutes),
    efficient: Int32Array.from(problem.tasks, (task) => task.crew.efficient),
    most: Int32Array.from(problem.tasks, (task) => task.crew.max),
    extraShare: Float64Array.from(problem.tasks, (task) => task.extraHandShare),
    learnerShare: Float64Array.from(problem.tasks, (task) => task.learnerShare),
    earliest: new Int32Array(n),
    begun: new Int32Array(n).fill(EVER),
    ended: new Int32Array(n).fill(EVER),
    inLinks: rows(n, ties, true),
    outLinks: rows(n, ties, false),
    plain: ties.every((tie) => (tie.form & (Form.BindsEnd | Form.FromStart)) === 0 && tie.lag === 0),
    crowd,
    needs: needs.list,
    need: new Int32Array(n).fill(-1),
    toolAt: new Int32Array(n + 1),
    toolPairs: new Int32Array(0),
    tools: problem.tools.map((tool) => stepsOf(tool, span)),
    presence: {
      first: new Int32Array(0),
      from: new Int32Array(0),
      here: new Int32Array(0),
      ever: new Int32Array(0),
    },
    openings: openingsOf(problem, mirrored),
    wished: mirrored ? null : wishedOf(problem, crowd, warm),
    order: new Int32Array(n),
    place: new Int32Array(n),
    dense: false,
  };
  const pairs: number[] = [];
  problem.tasks.forEach((task, i) => {
    describe(model, needs, task, i, turn);
    for (const { tool, count } of mergedTools(task)) pairs.push(tool, count);
    model.toolAt[i + 1] = pairs.length;
  });
  model.toolPairs = Int32Array.from(pairs);
  forgetShutAtOnce(model);
  model.presence = presenceOf(model, problem, span, turnoutOf);
  inOrder(model);
  model.dense = canBeDense(model);
  return model;
}

function describe(model: Model, needs: Needs, task: Task, i: number, turn: (t: Minute) => Minute): void {
  const { effort, progress, crew, seats, oneGo } = task;
  const manned =
    crew.min > 0 || seats.some((seat) => seat.count > 0) || (effort.kind === 'work' && crew.max > 0);
  model.earliest[i] = model.now;
  if (!model.mirrored) {
    if (progress.kind === 'waiting' && task.notBefore !== null) {
      model.earliest[i] = Math.max(model.now, task.notBefore);
    }
    if (progress.kind === 'under way') model.begun[i] = progress.startedAt;
  }
  if (progress.kind === 'done') {
    model.kind[i] = Kind.Done;
    model.begun[i] = turn(model.mirrored ? progress.endedAt : progress.startedAt);
    model.ended[i] = turn(model.mirrored ? progress.startedAt : progress.endedAt);
    return;
  }
  if (manned && effort.kind !== 'elapsed') model.need[i] = needs.of(task);
  switch (effort.kind) {
    case 'hold':
      model.kind[i] = manned ? Kind.SaySo : Kind.Mark;
      return;
    case 'elapsed':
      model.minutes[i] = effort.minutes;
      model.kind[i] = effort.minutes > 0 ? Kind.Elapsed : Kind.Mark;
      return;
    case 'fixed':
      model.minutes[i] = effort.minutes;
      model.amount[i] = effort.minutes;
      model.kind[i] = effort.minutes === 0 ? Kind.Mark : oneGo ? Kind.Block : Kind.Split;
      break;
    case 'work':
      model.minutes[i] = -1;
      model.amount[i] = effort.personMinutes;
      model.kind[i] = effort.personMinutes <= 0 ? Kind.Mark : oneGo ? Kind.Bout : Kind.Split;
      break;
  }
  if (model.kind[i] !== Kind.Mark) return;
  model.need[i] = -1;
  model.minutes[i] = 0;
}

function mergedTools(task: Task): { tool: number; count: number }[] {
  const counts = new Map<number, number>();
  for (const { tool, count } of task.tools) if (count > 0) counts.set(tool, (counts.get(tool) ?? 0) + count);
  return [...counts].map(([tool, count]) => ({ tool, count }));
}

interface Tie {
  before: number;
  after: number;
  form: number;
  lag: number;
  link: number;
}

/** All links, turned round for a mirror, and one from each opener to its closer: nothing is shut before it is opened. */
function tiesOf(problem: Problem, mirrored: boolean): Tie[] {
  const ties: Tie[] = [];
  [...problem.links, ...openingTies(problem)].forEach(({ before, after, relation, lag, lagKind }, k) => {
    const fromStart = relation === 'start-to-start' || relation === 'start-to-finish';
    const bindsEnd = relation === 'finish-to-finish' || relation === 'start-to-finish';
    // What is done, and the start of what is under way, is bound by nothing any more.
    const { kind } = problem.tasks[after].progress;
    if (kind === 'done' || (kind === 'under way' && !bindsEnd)) return;
    const form = (bindsEnd ? Form.BindsEnd : 0) | (fromStart ? Form.FromStart : 0);
    const link = k < problem.links.length ? k : -1;
    ties.push({ before, after, form: form | (lagKind === 'working' ? Form.Working : 0), lag, link });
  });
  if (!mirrored) return ties;
  return ties.map((tie) => {
    const bindsEnd = tie.form & Form.FromStart ? Form.BindsEnd : 0;
    const fromStart = tie.form & Form.BindsEnd ? Form.FromStart : 0;
    const form = bindsEnd | fromStart | (tie.form & Form.Working);
    return { ...tie, before: tie.after, after: tie.before, form };
  });
}

function rows(n: number, ties: Tie[], incoming: boolean): Rows {
  const own = (tie: Tie) => (incoming ? tie.after : tie.before);
  const sorted = ties.map((tie, k) => ({ tie, k })).sort((a, b) => own(a.tie) - own(b.tie) || a.k - b.k);
  const at = new Int32Array(n + 1);
  for (const { tie } of sorted) at[own(tie) + 1]++;
  for (let i = 0; i < n; i++) at[i + 1] += at[i];
  return {
    at,
    task: Int32Array.from(sorted, ({ tie }) => (incoming ? tie.before : tie.after)),
    form: Uint8Array.from(sorted, ({ tie }) => tie.form),
    lag: Int32Array.from(sorted, ({ tie }) => tie.lag),
    link: Int32Array.from(sorted, ({ tie }) => tie.link),
  };
}

function stepsOf(tool: Problem['tools'][number], span: (from: Minute, to: Minute) => number[]): ToolSteps {
  const at: number[] = [EVER];
  const free: number[] = [tool.capacity];
  const spans = tool.spans
    .map(({ from, to, capacity }) => ({ between: span(from, to), capacity }))
    .filter(({ between }) => between[0] < between[1])
    .sort((a, b) => a.between[0] - b.between[0]);
  for (const { between, capacity } of spans) {
    if (at[at.length - 1] === between[0]) free[free.length - 1] = capacity;
    else {
      at.push(between[0]);
      free.push(capacity);
    }
    at.push(between[1]);
    free.push(tool.capacity);
  }
  return { at, free };
}

const WEEK = 7 * 24 * 60;

/** First minute of the week that minute t lies in, weeks being counted from the plan's epoch. */
export function weekOf(model: Model, t: Minute): number {
  return model.mirrored ? Math.ceil((model.problem.horizon - t) / WEEK) - 1 : Math.floor(t / WEEK);
}

function presenceOf(
  model: Model,
  problem: Problem,
  span: (from: Minute, to: Minute) => number[],
  turnoutOf: (w: number) => number,
): Presence {
  const { crowd, calendar } = model;
  const { words } = crowd;
  const stays: { rank: number; from: number; to: number }[][] = problem.turnouts.map(() => []);
  problem.people.forEach((person, p) => {
    for (const stay of person.stays) {
      if (!(stay.showUp > 0)) continue;
      const [from, to] = span(stay.from, stay.to);
      if (from <= to) stays[turnoutOf(stay.turnout)].push({ rank: crowd.rank[p], from, to });
    }
  });
  const lapses: number[] = [];
  for (const gate of crowd.gates) {
    if (!gate.lapses) continue;
    for (const t of [...gate.from, ...gate.till]) lapses.push(t);
  }
  const first = new Int32Array(calendar.count + 1);
  const from: number[] = [];
  const here: number[] = [];
  const ever = new Int32Array(calendar.count * words);
  for (let w = 0; w < calendar.count; w++) {
    const start = calendar.start[w];
    const end = calendar.end[w];
    const cuts = new Set([start]);
    const cut = (t: number) => t > start && t < end && cuts.add(t);
    for (const stay of stays[w]) {
      cut(stay.from);
      cut(stay.to);
    }
    for (const t of lapses) cut(t);
    if (crowd.anyCapped) for (let t = weekEnd(model, start); t < end; t = weekEnd(model, t)) cut(t);
    for (const t of [...cuts].sort((a, b) => a - b)) {
      const set = emptySet(words);
      for (const stay of stays[w]) if (stay.from <= t && t < stay.to) put(set, stay.rank);
      from.push(t);
      here.push(...set);
    }
    for (const stay of stays[w])
      if (stay.from < stay.to) ever[w * words + (stay.rank >> 5)] |= 1 << (stay.rank & 31);
    first[w + 1] = from.length;
  }
  return { first, from: Int32Array.from(from), here: Int32Array.from(here), ever };
}

/** The minute at which the week of minute t is over. */
export function weekEnd(model: Model, t: Minute): Minute {
  const week = weekOf(model, t);
  return model.mirrored ? model.problem.horizon - week * WEEK : (week + 1) * WEEK;
}

function openingsOf(problem: Problem, mirrored: boolean): Openings {
  const opener = new Int32Array(problem.elements.length).fill(-1);
  const closer = new Int32Array(problem.elements.length).fill(-1);
  problem.tasks.forEach((task, i) => {
    for (const e of mirrored ? task.closes : task.opens) opener[e] = i;
    for (const e of mirrored ? task.opens : task.closes) closer[e] = i;
  });
  const limits = problem.openingLimits
    .map(({ elements, atMost }, index) => ({ index, elements: [...new Set(elements)], atMost }))
    .filter(
      ({ elements, atMost }) => elements.filter((e) => opener[e] >= 0 || closer[e] >= 0).length > atMost,
    );
  const bound = new Set(limits.flatMap((limit) => limit.elements));
  const opens: number[][] = problem.tasks.map(() => []);
  const closes: number[][] = problem.tasks.map(() => []);
  for (const e of bound) {
    if (opener[e] >= 0) opens[opener[e]].push(e);
    if (closer[e] >= 0) closes[closer[e]].push(e);
  }
  return { limits, opener, closer, opens, closes };
}

/** What a task without length both opens and shuts is never open. */
function forgetShutAtOnce({ openings, kind, n }: Model): void {
  const { opener, closer, opens, closes } = openings;
  for (let i = 0; i < n; i++) {
    if (kind[i] !== Kind.Mark && kind[i] !== Kind.SaySo) continue;
    const never = opens[i].filter((e) => closer[e] === i);
    if (never.length === 0) continue;
    for (const e of never) opener[e] = closer[e] = -1;
    opens[i] = opens[i].filter((e) => !never.includes(e));
    closes[i] = closes[i].filter((e) => !never.includes(e));
  }
}

function wishedOf(problem: Problem, crowd: Crowd, warm: Plan | undefined): WishedCrews | null {
  const wished: WishedCrews = {
    firm: new Map(),
    soft: new Map(),
    firmTurnouts: new Map(),
    held: new Map(),
    asked: new Map(),
  };
  const turnouts = problem.turnouts.length;
  const add = (map: Map<number, Int32Array>, key: number, person: number) => {
    let set = map.get(key);
    if (!set) map.set(key, (set = emptySet(crowd.words)));
    put(set, crowd.rank[person]);
  };
  const live = (task: number, turnout: number) =>
    problem.tasks[task].progress.kind !== 'done' && problem.turnouts[turnout].end > problem.now;
  for (const { task, turnout, person, firm } of problem.posted) {
    if (!live(task, turnout)) continue;
    const key = task * turnouts + turnout;
    add(firm ? wished.firm : wished.soft, key, person);
    add(wished.asked, turnout, person);
    if (!firm) continue;
    add(wished.held, turnout, person);
    const list = wished.firmTurnouts.get(task) ?? [];
    if (!list.includes(turnout)) list.push(turnout);
    wished.firmTurnouts.set(
      task,
      list.sort((a, b) => a - b),
    );
  }
  for (const segment of warm?.segments ?? []) {
    if (segment.turnout === null || segment.turnout >= turnouts || segment.task >= problem.tasks.length)
      continue;
    if (!live(segment.task, segment.turnout)) continue;
    for (const { person } of segment.crew) {
      if (person >= crowd.count) continue;
      const asked = wished.asked.get(segment.turnout);
      const key = segment.task * turnouts + segment.turnout;
      if (asked && has(asked, crowd.rank[person]) && !wished.firm.has(key) && !wished.soft.has(key)) continue;
      add(wished.soft, key, person);
    }
  }
  return wished.firm.size + wished.soft.size > 0 ? wished : null;
}

/** Earlier tasks first; among those free to go, in the order of the problem. */
function inOrder(model: Model): void {
  const { n, inLinks, outLinks, order, place } = model;
  const waits = new Int32Array(n);
  for (let i = 0; i < n; i++) waits[i] = inLinks.at[i + 1] - inLinks.at[i];
  const ready: number[] = [];
  for (let i = n - 1; i >= 0; i--) if (waits[i] === 0) ready.push(i);
  let filled = 0;
  for (let head = ready.pop(); head !== undefined; head = ready.pop()) {
    place[head] = filled;
    order[filled++] = head;
    for (let k = outLinks.at[head]; k < outLinks.at[head + 1]; k++) {
      if (--waits[outLinks.task[k]] === 0) ready.push(outLinks.task[k]);
    }
  }
  if (filled < n) throw new RangeError('links go round in a circle');
}

function canBeDense(model: Model): boolean {
  const { calendar, kind, n, crowd, problem, openings, presence } = model;
  if (calendar.count !== 1 || model.horizon - Math.max(model.now, 0) > DENSE_SPAN) return false;
  if (calendar.start[0] < 0 || calendar.end[0] > DENSE_SPAN) return false;
  if (crowd.anyCapped || crowd.gates.some((gate) => gate.lapses) || problem.posted.length > 0) return false;
  if (openings.limits.length > 0 || model.wished !== null || presence.first[1] > 64) return false;
  for (let i = 0; i < n; i++) {
    if (kind[i] !== Kind.Mark && kind[i] !== Kind.Block && kind[i] !== Kind.Elapsed) return false;
    if (model.need[i] >= 0 && model.needs[model.need[i]].anyLearner) return false;
  }
  return true;
}
