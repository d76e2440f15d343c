import { EVER, WorkCalendar } from '../calendar.js';
import type { Plan } from '../plan.js';
import type { Minute, Problem, Task } from '../problem.js';
import { Kind } from './kind.js';
import { forgetShutAtOnce, openingsOf, type Openings } from './openings.js';
import { crowdOf, Needs, type Crowd, type Need } from './people.js';
import { presenceOf, type Presence } from './presence.js';
import { stepsOf, type ToolSteps } from './steps.js';
import { Form, rows, tiesOf, type Rows } from './ties.js';
import { wishedOf, type WishedCrews } from './wished.js';

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
  forgetShutAtOnce(model.openings, model.kind, model.begun);
  model.presence = presenceOf(crowd, model.calendar, model, problem);
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
