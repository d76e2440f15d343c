import type { Wish } from '../plan.js';
import type { Problem, Task } from '../problem.js';

/** All that the tasks named (all of them unless given) ask for and that could be given up, one wish each. */
export function wishesOf(problem: Problem, only?: ReadonlySet<number>): Wish[] {
  const wishes: Wish[] = [];
  problem.tasks.forEach((task, i) => {
    if (task.progress.kind === 'done' || (only && !only.has(i))) return;
    task.clearances.forEach((clearance) => wishes.push({ kind: 'card', task: i, seat: null, clearance }));
    if (task.notBefore !== null) wishes.push({ kind: 'not before', task: i });
    new Set(task.tools.map(({ tool }) => tool)).forEach((tool) =>
      wishes.push({ kind: 'tool', task: i, tool }),
    );
    if (task.oneGo) wishes.push({ kind: 'one go', task: i, longest: null, need: null });
    task.seats.forEach((seat, s) => {
      for (const clearance of seat.clearances) wishes.push({ kind: 'card', task: i, seat: s, clearance });
      wishes.push({ kind: 'seat', task: i, seat: s, have: null, need: seat.count });
    });
    if (task.crew.min > 1) wishes.push({ kind: 'crew', task: i, have: null, need: task.crew.min });
  });
  problem.posted.forEach(({ task, firm }, posting) => {
    if (firm && (!only || only.has(task))) wishes.push({ kind: 'posting', posting });
  });
  if (only) return wishes;
  problem.people.forEach(({ minutesAWeek, minutesATurnout }, person) => {
    if (minutesAWeek !== null || minutesATurnout !== null) wishes.push({ kind: 'cap', person });
  });
  problem.openingLimits.forEach(({ elements, atMost }, limit) => {
    const opener = problem.tasks.findIndex(
      (task) => task.progress.kind === 'waiting' && task.opens.some((element) => elements.includes(element)),
    );
    if (elements.length > atMost && opener >= 0) wishes.push({ kind: 'opening', task: opener, limit });
  });
  return wishes;
}

/** The same problem with these wishes given up. Indices of seats, limits and tools shift where one is gone. */
export function without(problem: Problem, given: readonly Wish[]): Problem {
  const byTask = new Map<number, Wish[]>();
  const postings = new Set<number>();
  const limits = new Set<number>();
  const people = new Set<number>();
  for (const wish of given) {
    if (wish.kind === 'posting') postings.add(wish.posting);
    else if (wish.kind === 'opening') limits.add(wish.limit);
    else if (wish.kind === 'cap') people.add(wish.person);
    else if (wish.kind !== 'circle') byTask.set(wish.task, [...(byTask.get(wish.task) ?? []), wish]);
  }
  return {
    ...problem,
    tasks: problem.tasks.map((task, i) => taskWithout(task, byTask.get(i) ?? [])),
    posted: problem.posted.map((one, k) => (postings.has(k) ? { ...one, firm: false } : one)),
    openingLimits: problem.openingLimits.filter((_, k) => !limits.has(k)),
    people: problem.people.map((one, p) =>
      people.has(p) ? { ...one, minutesAWeek: null, minutesATurnout: null } : one,
    ),
  };
}

function taskWithout(task: Task, given: readonly Wish[]): Task {
  if (given.length === 0) return task;
  const cards = given.flatMap((wish) => (wish.kind === 'card' ? [wish] : []));
  const seats = given.flatMap((wish) => (wish.kind === 'seat' ? [wish.seat] : []));
  const tools = given.flatMap((wish) => (wish.kind === 'tool' ? [wish.tool] : []));
  const has = (kind: Wish['kind']) => given.some((wish) => wish.kind === kind);
  return {
    ...task,
    seats: task.seats
      .map((seat, s) => ({
        ...seat,
        clearances: seat.clearances.filter(
          (one) => !cards.some((card) => card.seat === s && card.clearance === one),
        ),
      }))
      .filter((_, s) => !seats.includes(s)),
    clearances: task.clearances.filter(
      (one) => !cards.some((card) => card.seat === null && card.clearance === one),
    ),
    tools: task.tools.filter(({ tool }) => !tools.includes(tool)),
    crew: has('crew') ? { ...task.crew, min: Math.min(1, task.crew.min) } : task.crew,
    oneGo: task.oneGo && !has('one go'),
    notBefore: has('not before') ? null : task.notBefore,
  };
}
