import { CrewChooser } from '../generate/crew.js';
import { Kind } from '../model/kind.js';
import type { Model } from '../model/model.js';
import { has } from '../model/people.js';
import type { Wish } from '../plan.js';

/** Wishes that can't come true whatever the order: found by looking at each task alone. */
export function hopeless(model: Model): Wish[] {
  const wishes: Wish[] = [];
  for (let i = 0; i < model.n; i++) {
    if (model.kind[i] === Kind.Done || model.kind[i] === Kind.Mark) continue;
    wishes.push(...toolsOf(model, i), ...crewOf(model, i));
  }
  return [...wishes, ...postingsOf(model)];
}

function toolsOf({ problem, now, horizon }: Model, task: number): Wish[] {
  const counts = new Map<number, number>();
  for (const { tool, count } of problem.tasks[task].tools) counts.set(tool, (counts.get(tool) ?? 0) + count);
  const wishes: Wish[] = [];
  for (const [tool, count] of counts) {
    const { capacity, spans } = problem.tools[tool];
    const most = Math.max(
      capacity,
      ...spans.filter(({ from, to }) => to > now && from < horizon).map((span) => span.capacity),
    );
    if (count > most) wishes.push({ kind: 'tool', task, tool });
  }
  return wishes;
}

/** A seat that nobody can fill, a crew that never comes together, a piece of work longer than any turnout holds. */
function crewOf(model: Model, i: number): Wish[] {
  const { problem, calendar, kind } = model;
  if (kind[i] === Kind.Elapsed) return [];
  const task = problem.tasks[i];
  let longest = 0;
  let need = 0;
  const index = model.need[i];
  if (kind[i] !== Kind.SaySo) {
    const most = mostPace(model, i);
    need = task.oneGo
      ? model.minutes[i] >= 0
        ? model.minutes[i]
        : Math.ceil(model.amount[i] / most - 1e-9)
      : 1;
  }
  const chooser = new CrewChooser(model);
  let fits = false;
  for (let w = 0; w < calendar.count && !fits; w++) {
    const from = Math.max(calendar.start[w], model.now);
    const length = Math.min(calendar.end[w], model.horizon) - from;
    if (length < 0) continue;
    longest = Math.max(longest, length);
    fits = length >= need && (index < 0 || together(model, chooser, i, w));
  }
  if (fits) return [];
  if (longest < need) return [{ kind: 'one go', task: i, longest, need }];
  return index < 0 ? [{ kind: 'horizon', task: i }] : short(model, i);
}

function mostPace(model: Model, i: number): number {
  const efficient = Math.min(model.efficient[i], model.most[i]);
  return efficient + (model.most[i] - efficient) * Math.min(1, model.extraShare[i]);
}

/** Whether at some minute of turnout w there is a crew for task i. */
function together(model: Model, chooser: CrewChooser, i: number, w: number): boolean {
  const { presence, crowd, needs, need, calendar } = model;
  for (let k = presence.first[w]; k < presence.first[w + 1]; k++) {
    const from = Math.max(presence.from[k], model.now);
    const until = k + 1 < presence.first[w + 1] ? presence.from[k + 1] : calendar.end[w];
    if (until <= from) continue;
    const at = k * crowd.words;
    if (chooser.choose(i, needs[need[i]], presence.here, at, 0, from, from + 1, null, null, null))
      return true;
  }
  return false;
}

/** Names the seat (or the crew) that comes closest to being filled at the best turnout and still is not. */
function short(model: Model, i: number): Wish[] {
  const { presence, crowd, needs, need, calendar } = model;
  const { seats, lean, hands } = needs[need[i]];
  const best = seats.map(() => 0);
  let most = 0;
  for (let w = 0; w < calendar.count; w++) {
    if (calendar.end[w] <= model.now) continue;
    for (let k = presence.first[w]; k < presence.first[w + 1]; k++) {
      const count = (set: Int32Array) => {
        let sum = 0;
        for (let r = 0; r < crowd.count; r++) {
          if (has(set, r) && has(presence.here, r, k * crowd.words)) sum++;
        }
        return sum;
      };
      seats.forEach((seat, s) => (best[s] = Math.max(best[s], count(seat.able))));
      most = Math.max(most, count(hands));
    }
  }
  const wishes: Wish[] = [];
  seats.forEach((seat, s) => {
    if (best[s] < seat.count) {
      wishes.push({ kind: 'seat', task: i, seat: seat.seat, have: best[s], need: seat.count });
    }
  });
  if (wishes.length > 0) return wishes;
  if (most < lean) return [{ kind: 'crew', task: i, have: most, need: lean }];
  // Each seat could be filled, but never all of them at one time.
  if (seats.length > 0) {
    return [{ kind: 'seat', task: i, seat: seats[0].seat, have: seats[0].count - 1, need: seats[0].count }];
  }
  return [{ kind: 'crew', task: i, have: Math.max(0, lean - 1), need: lean }];
}

/** Firm postings of somebody who does not come or may not do it, or that ask for one-go work in pieces. */
function postingsOf(model: Model): Wish[] {
  const wishes: Wish[] = [];
  const turnoutOf = new Map<number, number>();
  const { problem, kind } = model;
  problem.posted.forEach(({ task, turnout, firm }, posting) => {
    if (!firm || problem.tasks[task].progress.kind === 'done' || problem.turnouts[turnout].end <= problem.now)
      return;
    const inOne = problem.tasks[task].oneGo || kind[task] === Kind.SaySo;
    const elsewhere = inOne && (turnoutOf.get(task) ?? turnout) !== turnout;
    turnoutOf.set(task, turnout);
    if (elsewhere || !canKeep(model, posting)) wishes.push({ kind: 'posting', posting });
  });
  return wishes;
}

/** Whether a posting can be kept as far as the task and the person alone go. */
export function canKeep({ problem, kind }: Model, posting: number): boolean {
  const { task, turnout, person } = problem.posted[posting];
  const wanted = problem.tasks[task];
  const { start, end } = problem.turnouts[turnout];
  if (kind[task] === Kind.Elapsed || kind[task] === Kind.Mark || kind[task] === Kind.Done) return false;
  if (end <= problem.now || wanted.crew.max === 0) return false;
  const { stays, clearances } = problem.people[person];
  return (
    stays.some((stay) => stay.turnout === turnout && stay.showUp > 0) &&
    wanted.clearances.every((clearance) =>
      clearances.some((one) => one.clearance === clearance && (one.until === null || one.until >= start)),
    )
  );
}
