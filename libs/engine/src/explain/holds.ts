import { staysOf, type StaysByTurnout } from '../model/presence.js';
import type { Hold, Segment } from '../plan.js';
import type { Minute, Seat, Task } from '../problem.js';
import { bindsEnd, passesByItself, startsFrom, type Draft } from './draft.js';

/**
 * Why each task does not start earlier: the last start before the planned one is tried, and what stands in its way
 * there is named. Links and dates come first, then what the yard could not give: an opening, a tool, a seat, hands.
 */
export class Holds {
  readonly #draft: Draft;
  readonly #opener: number[];
  readonly #closer: number[];
  readonly #linksInto: number[][];
  #stays: StaysByTurnout | null = null;
  #users: Segment[][] = [];

  constructor(draft: Draft) {
    const { problem } = draft;
    this.#draft = draft;
    this.#opener = problem.elements.map(() => -1);
    this.#closer = problem.elements.map(() => -1);
    problem.tasks.forEach((task, i) => {
      for (const e of task.opens) this.#opener[e] = i;
      for (const e of task.closes) this.#closer[e] = i;
    });
    this.#linksInto = problem.tasks.map(() => []);
    problem.links.forEach((link, k) => this.#linksInto[link.after].push(k));
  }

  /** The link whose start-binding date is latest, with that date; link -1 where now or a date of its own is later. */
  #earliest(i: number): { from: Minute; link: number; dated: boolean } {
    const { problem } = this.#draft;
    const { notBefore } = problem.tasks[i];
    const dated = notBefore !== null && notBefore > problem.now;
    const found = { from: dated ? notBefore : problem.now, link: -1, dated };
    for (const k of this.#linksInto[i]) {
      if (bindsEnd(problem.links[k].relation)) continue;
      const t = this.#linkDate(k);
      if (t > found.from || (t === found.from && found.link < 0)) {
        found.from = t;
        found.link = k;
        found.dated = false;
      }
    }
    return found;
  }

  #linkDate(k: number): Minute {
    const { problem, calendar, start, end } = this.#draft;
    const { before, relation, lag, lagKind } = problem.links[k];
    return calendar.lagged(startsFrom(relation) ? start[before] : end[before], lag, lagKind === 'working');
  }

  /** The link that keeps the task from ending earlier, or -1. */
  endLink(i: number): number {
    const { problem, end, calendar } = this.#draft;
    let found = -1;
    let latest = -Infinity;
    for (const k of this.#linksInto[i]) {
      if (!bindsEnd(problem.links[k].relation)) continue;
      const t = this.#linkDate(k);
      if (t > latest) {
        latest = t;
        found = k;
      }
    }
    if (found < 0 || latest > end[i]) return -1;
    const tight = latest === end[i] || (!passesByItself(problem, i) && calendar.between(latest, end[i]) <= 0);
    return tight ? found : -1;
  }

  /** The link by which the task follows another one, whatever else holds it: where a chain goes on. */
  driver(i: number): number {
    return this.#earliest(i).link;
  }

  of(i: number): Hold {
    const { problem, calendar, start, ofTask, segments } = this.#draft;
    const task = problem.tasks[i];
    if (task.progress.kind !== 'waiting') return { kind: 'nothing' };
    const { from, link, dated } = this.#earliest(i);
    const s = start[i];
    const byLink: Hold =
      link >= 0 ? { kind: 'link', link, task: problem.links[link].before } : { kind: 'nothing' };
    const at = ofTask[i].at(0);
    const first = at === undefined ? undefined : segments[at];
    if (s <= from) return link >= 0 ? byLink : dated ? { kind: 'not before' } : byLink;
    if (first !== undefined && first.turnout !== null && calendar.between(from, s) <= 0) {
      return link >= 0 ? byLink : dated ? { kind: 'not before' } : { kind: 'calendar' };
    }
    const opening = this.#opening(i, s - 1);
    if (opening) return opening;
    const endLink = this.endLink(i);
    if (endLink >= 0 && (task.oneGo || ofTask[i].length === 1 || passesByItself(problem, i))) {
      return { kind: 'link', link: endLink, task: problem.links[endLink].before };
    }
    if (first === undefined) return byLink;
    if (first.turnout === null) return this.#tool(task, i, s - 1, first.end - 1) ?? byLink;
    if (problem.posted.some((one) => one.firm && one.task === i && one.turnout === first.turnout)) {
      return { kind: 'posted' };
    }
    return this.#atProbe(i, task, first, from) ?? (link >= 0 ? byLink : { kind: 'calendar' });
  }

  /** What stands in the way of the last start before the planned one. */
  #atProbe(i: number, task: Task, first: Segment, from: Minute): Hold | null {
    const { problem } = this.#draft;
    const own = first.turnout ?? 0;
    const length = Math.max(task.oneGo ? first.end - first.start : 1, 1);
    let calendarHeld = false;
    for (let w = own; w >= 0; w--) {
      const turnout = problem.turnouts[w];
      const earliest = Math.max(turnout.start, from);
      const s = w === own ? first.start - 1 : turnout.end - length;
      if (turnout.end <= from) break;
      if (s < earliest) {
        if (w !== own) calendarHeld = true;
        continue;
      }
      const to = Math.min(turnout.end, s + length);
      const found = this.#tool(task, i, s, to) ?? this.#people(task, i, w, s, to);
      if (found) return found;
      if (task.oneGo && s + length > turnout.end) return { kind: 'calendar' };
      break;
    }
    return calendarHeld ? { kind: 'calendar' } : null;
  }

  #opening(i: number, at: Minute): Hold | null {
    const { problem, start, end } = this.#draft;
    const opens = problem.tasks[i].opens;
    if (opens.length === 0) return null;
    for (let limit = 0; limit < problem.openingLimits.length; limit++) {
      const { elements, atMost, from = at } = problem.openingLimits[limit];
      // A limit that comes later holds what would still be open by then.
      const t = Math.max(at, from);
      if (!opens.some((e) => elements.includes(e) && !(this.#closer[e] >= 0 && end[this.#closer[e]] <= t)))
        continue;
      let open = 0;
      let last = -1;
      for (const e of elements) {
        const opener = this.#opener[e];
        const closer = this.#closer[e];
        if (opens.includes(e)) {
          if (closer < 0 || end[closer] > t) open++;
          continue;
        }
        if (opener < 0 && closer < 0) continue;
        if (opener >= 0 && start[opener] > t) continue;
        if (closer >= 0 && end[closer] <= t) continue;
        open++;
        if (closer >= 0 && closer !== i && (last < 0 || end[closer] < end[last])) last = closer;
      }
      if (open > atMost && last >= 0) return { kind: 'opening', limit, task: last };
    }
    return null;
  }

  #tool(task: Task, i: number, from: Minute, to: Minute): Hold | null {
    const { problem } = this.#draft;
    for (const { tool, count } of task.tools) {
      const users = this.#usersOf(tool).filter(
        (one) => one.task !== i && one.start < to && one.end > from && one.end > one.start,
      );
      const { capacity, spans } = problem.tools[tool];
      const moments = [
        from,
        ...users.map((one) => one.start),
        ...spans.flatMap((span) => [span.from, span.to]),
      ];
      for (const t of moments) {
        if (t < from || t >= to) continue;
        const there = spans.find((span) => span.from <= t && t < span.to)?.capacity ?? capacity;
        const now = users.filter((one) => one.start <= t && t < one.end);
        let used = 0;
        for (const one of now) {
          for (const use of problem.tasks[one.task].tools) if (use.tool === tool) used += use.count;
        }
        if (used + count <= there || now.length === 0) continue;
        now.sort((a, b) => a.end - b.end || a.start - b.start);
        return { kind: 'tool', tool, task: now[now.length - 1].task };
      }
    }
    return null;
  }

  /** A seat that nobody free can fill over [from, to), or too few hands. */
  #people(task: Task, i: number, w: number, from: Minute, to: Minute): Hold | null {
    const seats = [...task.seats].filter((seat) => seat.count > 0);
    for (const seat of seats) {
      const fit = this.#who(task, seat, w, from, to, i);
      if (fit.free.length >= seat.count) continue;
      const busy = fit.busy.at(0);
      if (!busy) return { kind: 'skill', skill: seat.skill, task: null };
      if (fit.free.length + fit.busy.length <= seat.count) {
        return { kind: 'person', person: busy.person, task: busy.task };
      }
      return { kind: 'skill', skill: seat.skill, task: busy.task };
    }
    const hands = this.#who(task, null, w, from, to, i);
    const seated = seats.reduce((sum, seat) => sum + seat.count, 0);
    if (hands.free.length < Math.max(task.crew.min, seated)) {
      return { kind: 'crew', task: hands.busy.at(0)?.task ?? null };
    }
    // Each seat could be filled by itself, but not all at once: two skills in one person.
    if (seats.length < 2) return null;
    const all = seats.flatMap((seat) =>
      this.#who(task, seat, w, from, to, i).busy.map((busy) => ({ busy, seat })),
    );
    if (all.length === 0) return null;
    return { kind: 'skill', skill: all[0].seat.skill, task: all[0].busy.task };
  }

  /** Segments that hold a tool, in order of start. */
  #usersOf(tool: number): Segment[] {
    if (this.#users.length === 0) {
      const { problem, segments } = this.#draft;
      this.#users = problem.tools.map(() => []);
      for (const segment of segments) {
        for (const use of problem.tasks[segment.task].tools) {
          const row = this.#users[use.tool];
          if (use.count > 0 && row[row.length - 1] !== segment) row.push(segment);
        }
      }
    }
    return this.#users[tool];
  }

  /** Who could take a seat (or lend a hand) in [from, to): free, or busy with which task; the last to be free first. */
  #who(task: Task, seat: Seat | null, w: number, from: Minute, to: Minute, i: number) {
    const { problem, segments, ofTurnout } = this.#draft;
    const free: number[] = [];
    const busy: { person: number; task: number; end: Minute }[] = [];
    const wanted = seat ? [...task.clearances, ...seat.clearances] : task.clearances;
    const doing = new Map<number, Segment>();
    for (const k of ofTurnout[w]) {
      const one = segments[k];
      if (one.task === i || one.start >= to || one.end <= from || one.end === one.start) continue;
      for (const hand of one.crew) if (!doing.has(hand.person)) doing.set(hand.person, one);
    }
    this.#stays ??= staysOf(problem, false);
    const { at, person: who, from: since, to: until } = this.#stays;
    for (let k = at[w]; k < at[w + 1]; k++) {
      if (since[k] > from || to > until[k]) continue;
      const p = who[k];
      const person = problem.people[p];
      if (seat && person.levels[seat.skill] < seat.level) continue;
      const cleared = wanted.every((clearance) =>
        person.clearances.some(
          (one) => one.clearance === clearance && (one.until === null || one.until >= to - 1),
        ),
      );
      if (!cleared) continue;
      const other = doing.get(p);
      if (other) busy.push({ person: p, task: other.task, end: other.end });
      else free.push(p);
    }
    busy.sort((a, b) => a.end - b.end || a.person - b.person);
    return { free, busy };
  }
}
