import type { Link, Problem } from '../problem.js';
import type { Load } from './loads.js';
import type { Reach } from './reach.js';

/**
 * An element that is opened and shut is one span of time, from the opener's start to the closer's end, however the
 * work between is shared out. Its least length is the longest way through the links from the one to the other, in
 * working minutes. A limit on openings is then a load like any other, of which each open element takes one.
 */
export interface OpenSpan {
  opener: number;
  closer: number;
  /** Working minutes that it stays open at least. */
  minutes: number;
}

export interface OpenSpans {
  spans: OpenSpan[];
  /** One load a limit; items name span k as task `tasks + k`. */
  loads: Load[];
}

/** @param order tasks so that every link runs forward */
export function openSpansOf(problem: Problem, reach: Reach, order: ArrayLike<number>): OpenSpans {
  const n = problem.tasks.length;
  const waits = (i: number) => problem.tasks[i].progress.kind === 'waiting';
  const done = (i: number) => problem.tasks[i].progress.kind === 'done';
  const opener = problem.elements.map(() => -1);
  const closer = problem.elements.map(() => -1);
  problem.tasks.forEach((task, i) => {
    for (const e of task.opens) opener[e] = i;
    for (const e of task.closes) closer[e] = i;
  });
  const isOpenNow = (e: number) =>
    (opener[e] < 0 ? closer[e] >= 0 : !waits(opener[e])) && (closer[e] < 0 || !done(closer[e]));

  const ways = new Ways(problem, reach, order);
  const spans: OpenSpan[] = [];
  const spanOf = new Map<number, number>();
  const loads = problem.openingLimits.flatMap((limit): Load[] => {
    const elements = [...new Set(limit.elements)];
    // Before it is in force nothing is counted, and what is shut by then never.
    if (limit.from !== undefined && limit.from > problem.now) return [];
    // More may be open already than the limit allows; then only new openings wait, and nothing is counted here.
    if (elements.filter(isOpenNow).length > limit.atMost) return [];
    const items = elements.flatMap((e) => {
      if (opener[e] < 0 || closer[e] < 0 || !waits(opener[e])) return [];
      let k = spanOf.get(e);
      if (k === undefined) {
        k = spans.length;
        spanOf.set(e, k);
        spans.push({ opener: opener[e], closer: closer[e], minutes: ways.from(opener[e])[closer[e]] });
      }
      const { minutes } = spans[k];
      return minutes > 0 ? [{ task: n + k, height: 1, minutes, whole: true }] : [];
    });
    if (items.length <= limit.atMost) return [];
    const total = reach.calendar.total;
    return [
      {
        kind: 'opening',
        name: { limit: problem.openingLimits.indexOf(limit) },
        at: Float64Array.of(0, total),
        there: Float64Array.of(limit.atMost, 0),
        sum: Float64Array.of(0, limit.atMost * total),
        most: limit.atMost,
        items,
      },
    ];
  });
  return { spans, loads };
}

/** Longest ways through the links, in working minutes; what only time passes counts as none. */
class Ways {
  readonly #out: Link[][];
  readonly #least: Float64Array;
  readonly #known = new Map<number, Float64Array>();

  constructor(
    problem: Problem,
    reach: Reach,
    readonly order: ArrayLike<number>,
  ) {
    this.#out = problem.tasks.map(() => []);
    for (const link of problem.links) {
      const { kind } = problem.tasks[link.after].progress;
      const start = link.relation === 'finish-to-start' || link.relation === 'start-to-start';
      if (kind === 'done' || (kind === 'under way' && start)) continue;
      this.#out[link.before].push(link);
    }
    this.#least = Float64Array.from(problem.tasks, ({ effort }, i) =>
      effort.kind === 'elapsed' ? 0 : reach.leastMinutes(i),
    );
  }

  /** By task: working minutes from the start of `first` to the task's end at least; below 0 where no link leads there. */
  from(first: number): Float64Array {
    let ends = this.#known.get(first);
    if (ends) return ends;
    const n = this.order.length;
    const starts = new Float64Array(n).fill(-Infinity);
    ends = new Float64Array(n).fill(-Infinity);
    starts[first] = 0;
    for (let k = 0; k < n; k++) {
      const i = this.order[k];
      ends[i] = Math.max(ends[i], starts[i] + this.#least[i]);
      if (ends[i] === -Infinity) continue;
      for (const { after, relation, lag, lagKind } of this.#out[i]) {
        const from = relation === 'finish-to-start' || relation === 'finish-to-finish' ? ends[i] : starts[i];
        const to = from + (lagKind === 'working' ? lag : Math.min(0, lag));
        if (relation === 'finish-to-start' || relation === 'start-to-start')
          starts[after] = Math.max(starts[after], to);
        else ends[after] = Math.max(ends[after], to);
      }
    }
    this.#known.set(first, ends);
    return ends;
  }
}
