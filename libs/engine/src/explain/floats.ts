import { EVER } from '../calendar.js';
import type { Minute } from '../problem.js';
import { bindsEnd, passesByItself, startsFrom, type Draft } from './draft.js';

/**
 * Float on the real plan: how many working minutes each task's start can slip, orders and crews kept, before the
 * ready minute moves.
 *
 * A backward pass over segments. Arcs lead from a segment to whatever must wait for it: by a link, because they
 * share a person or a unit of a tool, because an opening must be shut first, or as the next piece of the same task.
 * Work moves by working minutes, what passes by itself by minutes of the calendar, so latest ends are lowered until
 * nothing changes (the arcs may run in circles where lags are negative, but never around one that gains).
 */
export function floatsOf(draft: Draft): Int32Array {
  const { problem, calendar, segments, ofTask, ready } = draft;
  const arcs = new Arcs(draft);
  const count = segments.length;
  const latest = new Int32Array(count).fill(ready);
  for (const [k, t] of arcs.until) latest[k] = Math.min(latest[k], t);

  const lateStart = (k: number): Minute => {
    const { start, end, task } = segments[k];
    if (passesByItself(problem, task)) return start + latest[k] - end;
    const slip = calendar.between(end, latest[k]);
    if (slip <= 0) return start;
    const at = calendar.startOf(calendar.worked(start) + slip);
    return at < start ? start : at;
  };
  /** The latest end of segment k at which its start is no later than t. */
  const endFor = (k: number, t: Minute): Minute => {
    const { start, end, task } = segments[k];
    if (t <= start) return end;
    if (passesByItself(problem, task)) return end + t - start;
    const slip = calendar.between(start, t);
    return slip <= 0 ? end : Math.max(end, calendar.endOf(calendar.worked(end) + slip));
  };

  const queue = new Int32Array(count + 1);
  const queued = new Uint8Array(count);
  let head = 0;
  let tail = 0;
  // Last first, so that most segments are settled once.
  for (let k = count - 1; k >= 0; k--) {
    queue[tail++] = k;
    queued[k] = 1;
  }
  while (head !== tail) {
    const k = queue[head];
    head = head === count ? 0 : head + 1;
    queued[k] = 0;
    for (const arc of arcs.into[k]) {
      let t = arc.toEnd ? latest[k] : lateStart(k);
      if (arc.lag !== 0) t = calendar.unlagged(t, arc.lag, arc.working);
      const { from } = arc;
      const bound = Math.max(segments[from].end, arc.atStart ? endFor(from, t) : t);
      if (bound >= latest[from]) continue;
      latest[from] = bound;
      if (queued[from]) continue;
      queued[from] = 1;
      queue[tail] = from;
      tail = tail === count ? 0 : tail + 1;
    }
  }
  const floats = new Int32Array(problem.tasks.length);
  problem.tasks.forEach((task, i) => {
    const first = ofTask[i].at(0);
    if (task.progress.kind === 'done' || first === undefined) return;
    floats[i] = Math.max(0, calendar.between(segments[first].start, lateStart(first)));
  });
  return floats;
}

interface Arc {
  from: number;
  /** The arc leaves the start of `from`, else its end. */
  atStart: boolean;
  /** The arc binds the end of the segment it leads into, else its start. */
  toEnd: boolean;
  lag: number;
  working: boolean;
}

class Arcs {
  readonly into: Arc[][];
  /** By segment: a minute by which it must end whatever follows. */
  readonly until = new Map<number, Minute>();

  constructor(draft: Draft) {
    this.into = draft.segments.map(() => []);
    this.#pieces(draft);
    this.#links(draft);
    for (const row of draft.ofPerson) for (let k = 1; k < row.length; k++) this.#after(row[k - 1], row[k]);
    this.#tools(draft);
    this.#openings(draft);
  }

  #after(from: number, to: number): void {
    this.into[to].push({ from, atStart: false, toEnd: false, lag: 0, working: false });
  }

  #pieces({ ofTask }: Draft): void {
    for (const row of ofTask) for (let k = 1; k < row.length; k++) this.#after(row[k - 1], row[k]);
  }

  /** Through tasks that have no segment (done, or nothing to do) no slip is passed on: those links end here. */
  #links({ problem, ofTask }: Draft): void {
    for (const link of problem.links) {
      const a = ofTask[link.before];
      const b = ofTask[link.after];
      if (a.length === 0 || b.length === 0) continue;
      const atStart = startsFrom(link.relation);
      const toEnd = bindsEnd(link.relation);
      const begun = problem.tasks[link.after].progress.kind === 'under way';
      if (begun && !toEnd) continue;
      if (atStart && problem.tasks[link.before].progress.kind === 'under way') continue;
      const to = toEnd ? b[b.length - 1] : b[0];
      const from = atStart ? a[0] : a[a.length - 1];
      this.into[to].push({ from, atStart, toEnd, lag: link.lag, working: link.lagKind === 'working' });
    }
  }

  /** Each unit of a tool passes from hand to hand; whoever takes a unit waits for the one who had it. */
  #tools({ problem, segments }: Draft): void {
    const users: { k: number; count: number }[][] = problem.tools.map(() => []);
    segments.forEach((segment, k) => {
      if (segment.end === segment.start) return;
      for (const { tool, count } of problem.tasks[segment.task].tools) users[tool].push({ k, count });
    });
    for (const row of users) {
      const units: number[] = [];
      for (const { k, count } of row) {
        const { start } = segments[k];
        const idle = units
          .map((last, unit) => ({ last, unit }))
          .filter(({ last }) => segments[last].end <= start);
        idle.sort((a, b) => segments[b.last].end - segments[a.last].end);
        for (let q = 0; q < count; q++) {
          if (q < idle.length) {
            if (idle[q].last !== k) this.#after(idle[q].last, k);
            units[idle[q].unit] = k;
          } else units.push(k);
        }
      }
    }
  }

  /** What is shut before a limit comes into force: it must be by then, unless there is room; the last ones first. */
  #shutBefore(closed: number[], hasRoom: boolean, from: Minute, { segments }: Draft): number[] {
    if (!hasRoom) for (const last of closed) this.until.set(last, from);
    return closed.sort((a, b) => segments[b].end - segments[a].end);
  }

  #openings(draft: Draft): void {
    const { problem, segments, ofTask } = draft;
    const opener = new Int32Array(problem.elements.length).fill(-1);
    const closer = new Int32Array(problem.elements.length).fill(-1);
    problem.tasks.forEach((task, i) => {
      for (const e of task.opens) opener[e] = i;
      for (const e of task.closes) closer[e] = i;
    });
    for (const { elements, atMost, from = EVER } of problem.openingLimits) {
      if (elements.length <= atMost) continue;
      const opened = elements
        .filter(
          (e) =>
            opener[e] >= 0 && closer[e] >= 0 && ofTask[opener[e]].length > 0 && ofTask[closer[e]].length > 0,
        )
        .map((e) => ({ first: ofTask[opener[e]][0], last: ofTask[closer[e]][ofTask[closer[e]].length - 1] }))
        .sort((a, b) => a.first - b.first);
      const before = opened.filter(({ last }) => segments[last].end <= from);
      const spans = this.#shutBefore(
        before.map(({ last }) => last),
        opened.filter((one) => !before.includes(one) && segments[one.first].start <= from).length < atMost,
        from,
        draft,
      ).slice(0, atMost);
      for (const { first, last } of opened) {
        if (segments[last].end <= from) continue;
        let best = -1;
        spans.forEach((until, unit) => {
          if (segments[until].end > segments[first].start) return;
          if (best < 0 || segments[until].end > segments[spans[best]].end) best = unit;
        });
        if (best >= 0) this.#after(spans[best], first);
        if (best >= 0) spans[best] = last;
        else spans.push(last);
      }
    }
  }
}
