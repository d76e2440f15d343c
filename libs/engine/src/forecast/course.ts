import { EVER } from '../calendar.js';
import { Kind } from '../model/kind.js';
import { layOut, type Model } from '../model/model.js';
import { Form } from '../model/ties.js';
import type { Plan } from '../plan.js';
import type { Problem } from '../problem.js';
import { NeedsAt } from './needs-at.js';

/**
 * A problem laid out for replaying it many times: what links are still to be met, in which order tasks are taken,
 * which openers wait for which. Made once for a forecast.
 */
export interface Course {
  model: Model;
  /** Turnouts up to which the plan has work. */
  best: number;
  /** Task at a place in the order in which a crew leader would take them, and place of a task. */
  taskAt: Int32Array;
  placeOf: Int32Array;
  /** By task: links that its start, and its end, still wait for; and the minute that is known already. */
  startWaits: Int32Array;
  endWaits: Int32Array;
  startFrom: Int32Array;
  endFrom: Int32Array;
  /** Links that go out from a task's start, and from its end, to tasks that are not done. */
  fromStart: Outgoing;
  fromEnd: Outgoing;
  openings: OpeningRules;
  /** By tool the capacity at a turnout: row of turnouts. */
  toolRoom: Int32Array;
  needs: NeedsAt;
}

export interface Outgoing {
  at: Int32Array;
  task: Int32Array;
  /** 1 where the link binds the end of the later task. */
  bindsEnd: Uint8Array;
  lag: Int32Array;
  working: Uint8Array;
}

export interface OpeningRules {
  atMost: Int32Array;
  /** In force from this minute on; before it those ask nothing that went past it in the plan, `spared` by limit. */
  from: Int32Array;
  spared: Set<number>[];
  /** How many are open at the plan's now, by limit. */
  open: Int32Array;
  /** By task: how many more (fewer) count for which limits from its start (end): pairs of limit and number. */
  opens: Int32Array[];
  closes: Int32Array[];
  /** By limit: openers in the plan's order; none goes before all those ahead of it, so that no dead end arises. */
  line: Int32Array[];
}

/** @param plan gives the order; a task that can wait is taken after one that cannot. */
export function courseOf(problem: Problem, plan: Pick<Plan, 'tasks'>): Course {
  const model = layOut(problem);
  const { n } = model;
  const order = Array.from({ length: n }, (_, i) => i).sort(
    (a, b) =>
      urgency(model, plan, a) - urgency(model, plan, b) ||
      plan.tasks[a].start - plan.tasks[b].start ||
      model.place[a] - model.place[b],
  );
  const placeOf = new Int32Array(n);
  order.forEach((i, k) => (placeOf[i] = k));
  return {
    model,
    best: model.calendar.turnoutAfter(plan.tasks.reduce((last, { end }) => Math.max(last, end), problem.now)),
    taskAt: Int32Array.from(order),
    placeOf,
    ...linksOf(model),
    openings: openingRules(model, plan),
    toolRoom: toolRoomOf(model),
    needs: new NeedsAt(model),
  };
}

/** How much of its float counts for a task's turn: a plan's order is good, but what can wait is better left than begun. */
const SPARE = 0.25;
/** Work that a plan spreads over so many times its length is what idle hands take up now and then. */
const SPREAD = 4;

/**
 * Working minutes: the plan's start, later for what can wait. What idle hands begin early and take up now and then says
 * by its end when it is wanted: that counts from when it must be begun to end as planned.
 */
function urgency(
  { calendar, minutes, amount, efficient }: Model,
  plan: Pick<Plan, 'tasks'>,
  i: number,
): number {
  const { start, end, float } = plan.tasks[i];
  const from = calendar.worked(start);
  const to = calendar.worked(end);
  const length = minutes[i] >= 0 ? minutes[i] : amount[i] / Math.max(1, efficient[i]);
  const begun = to - from > SPREAD * length + 60 ? to - length : from;
  return begun + SPARE * float;
}

function linksOf(model: Model) {
  const { n, inLinks, kind, begun, ended, calendar, earliest } = model;
  const startWaits = new Int32Array(n);
  const endWaits = new Int32Array(n);
  const startFrom = Int32Array.from(earliest);
  const endFrom = new Int32Array(n).fill(EVER);
  const starts: Out[] = [];
  const ends: Out[] = [];
  for (let j = 0; j < n; j++) {
    if (kind[j] === Kind.Done) continue;
    for (let k = inLinks.at[j]; k < inLinks.at[j + 1]; k++) {
      const i = inLinks.task[k];
      const form = inLinks.form[k];
      const bindsEnd = (form & Form.BindsEnd) !== 0;
      if (!bindsEnd && begun[j] > EVER) continue;
      const working = (form & Form.Working) !== 0;
      const known = (form & Form.FromStart) !== 0 ? begun[i] : ended[i];
      const from = bindsEnd ? endFrom : startFrom;
      if (known > EVER) {
        from[j] = Math.max(from[j], calendar.lagged(known, inLinks.lag[k], working));
        continue;
      }
      (bindsEnd ? endWaits : startWaits)[j]++;
      ((form & Form.FromStart) !== 0 ? starts : ends).push({ i, j, bindsEnd, lag: inLinks.lag[k], working });
    }
  }
  return {
    startWaits,
    endWaits,
    startFrom,
    endFrom,
    fromStart: outgoing(n, starts),
    fromEnd: outgoing(n, ends),
  };
}

interface Out {
  i: number;
  j: number;
  bindsEnd: boolean;
  lag: number;
  working: boolean;
}

function outgoing(n: number, list: Out[]): Outgoing {
  list.sort((a, b) => a.i - b.i);
  const at = new Int32Array(n + 1);
  for (const { i } of list) at[i + 1]++;
  for (let i = 0; i < n; i++) at[i + 1] += at[i];
  return {
    at,
    task: Int32Array.from(list, ({ j }) => j),
    bindsEnd: Uint8Array.from(list, ({ bindsEnd }) => (bindsEnd ? 1 : 0)),
    lag: Int32Array.from(list, ({ lag }) => lag),
    working: Uint8Array.from(list, ({ working }) => (working ? 1 : 0)),
  };
}

function openingRules(model: Model, plan: Pick<Plan, 'tasks'>): OpeningRules {
  const { openings, kind, begun, n } = model;
  const { limits, opener, closer } = openings;
  const opens: number[][] = Array.from({ length: n }, () => []);
  const closes: number[][] = Array.from({ length: n }, () => []);
  const open = new Int32Array(limits.length);
  const line = limits.map(({ elements }, l) => {
    const openers = new Set<number>();
    const more = new Map<number, number>();
    const fewer = new Map<number, number>();
    for (const e of elements) {
      const o = opener[e];
      const c = closer[e];
      if (o < 0 && c < 0) continue;
      if (o < 0 || begun[o] > EVER) {
        if (c < 0 || kind[c] !== Kind.Done) open[l]++;
      } else {
        more.set(o, (more.get(o) ?? 0) + 1);
        openers.add(o);
      }
      if (c >= 0 && kind[c] !== Kind.Done) fewer.set(c, (fewer.get(c) ?? 0) + 1);
    }
    for (const [i, count] of more) opens[i].push(l, count);
    for (const [i, count] of fewer) closes[i].push(l, count);
    return Int32Array.from(
      [...openers].sort(
        (a, b) => plan.tasks[a].start - plan.tasks[b].start || model.place[a] - model.place[b],
      ),
    );
  });
  return {
    atMost: Int32Array.from(limits, ({ atMost }) => atMost),
    from: Int32Array.from(limits, ({ from }) => from),
    spared: limits.map((limit) => sparedBy(limit, model, plan)),
    open,
    opens: opens.map((row) => Int32Array.from(row)),
    closes: closes.map((row) => Int32Array.from(row)),
    line,
  };
}

/** Openers that the plan lets go past a limit which is not yet in force. */
function sparedBy(
  { elements, atMost, from }: Model['openings']['limits'][number],
  { openings: { opener, closer }, begun }: Model,
  { tasks }: Pick<Plan, 'tasks'>,
): Set<number> {
  if (from === EVER) return new Set();
  const isOpen = (e: number, t: number): boolean => {
    if (opener[e] < 0 && closer[e] < 0) return false;
    return (opener[e] < 0 || tasks[opener[e]].start <= t) && (closer[e] < 0 || tasks[closer[e]].end > t);
  };
  return new Set(
    elements
      .map((e) => opener[e])
      .filter((i) => i >= 0 && begun[i] === EVER && tasks[i].start < from)
      .filter((i) => elements.filter((e) => isOpen(e, tasks[i].start)).length > atMost),
  );
}

/** The least capacity of each tool within each turnout. */
function toolRoomOf({ tools, calendar }: Model): Int32Array {
  const room = new Int32Array(tools.length * calendar.count);
  tools.forEach(({ at, free }, k) => {
    for (let w = 0; w < calendar.count; w++) {
      let least = Infinity;
      for (let s = 0; s < at.length; s++) {
        const until = s + 1 < at.length ? at[s + 1] : Infinity;
        if (at[s] < calendar.end[w] && until > calendar.start[w]) least = Math.min(least, free[s]);
      }
      room[k * calendar.count + w] = least;
    }
  });
  return room;
}
