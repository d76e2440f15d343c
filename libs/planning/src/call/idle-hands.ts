import type { Problem } from '@ribband/engine';
import type { CalledWork, Present } from './call-shapes.js';
import { isCleared } from './who-is-able.js';

/**
 * Gives those who came and have nothing to do a place as a further hand: on the work that goes on longest while they are
 * there and has the fewest hands beyond its efficient crew. Nobody sits where the plan needed a skill, no crew grows past
 * its most, and a learner joins only a crew in which somebody works alone in the skill.
 */
export function addIdleHands(
  problem: Problem,
  work: readonly CalledWork[],
  turnout: number,
  present: readonly Present[],
): CalledWork[] {
  const grown = work.map((one) => ({ ...one, crew: [...one.crew] }));
  const busy = new Set(grown.flatMap(({ crew }) => crew.map(({ person }) => person)));
  for (const { person, from, to } of present) {
    if (busy.has(person)) continue;
    const cap = problem.people[person]?.minutesATurnout ?? Infinity;
    const rooms = grown
      .map((one) => {
        const start = Math.max(from, one.start);
        const end = Math.min(to, one.end, start + cap);
        return { one, start, end, over: overOf(problem, one) };
      })
      .filter(({ one, start, end }) => start < end && hasRoom(problem, one, person, start))
      .sort((a, b) => b.end - b.start - (a.end - a.start) || a.over - b.over || a.one.task - b.one.task);
    const [room] = rooms;
    if (room) room.one.crew.push({ person, seat: null, start: room.start, end: room.end });
  }
  return grown;
}

const handsOn = ({ crew }: CalledWork): number => new Set(crew.map(({ person }) => person)).size;

function overOf(problem: Problem, work: CalledWork): number {
  return handsOn(work) - (problem.tasks[work.task]?.crew.efficient ?? 0);
}

function hasRoom(problem: Problem, work: CalledWork, person: number, at: number): boolean {
  const task = problem.tasks[work.task];
  if (!task || handsOn(work) >= task.crew.max || !isCleared(problem, person, task.clearances, at))
    return false;
  const level = (who: number) =>
    Math.max(0, ...task.seats.map((seat) => problem.people[who]?.levels[seat.skill] ?? 0));
  return level(person) !== 1 || work.crew.some((one) => level(one.person) >= 2);
}
