import type { Problem } from '@ribband/engine';
import type { Present } from './call-shapes.js';

/** Whether somebody holds every one of some clearances at a minute. */
export function isCleared(problem: Problem, person: number, wanted: readonly number[], at: number): boolean {
  const held = problem.people[person]?.clearances ?? [];
  return wanted.every((one) =>
    held.some(({ clearance, until }) => clearance === one && (until === null || until >= at)),
  );
}

/** Who of those present may be on a task, on one of its seats where one is named. */
export function whoIsAble(
  problem: Problem,
  present: readonly Present[],
  task: number,
  seat: number | null,
): number[] {
  const work = problem.tasks[task];
  if (!work) return [];
  const asked = seat === null ? undefined : work.seats[seat];
  return present.flatMap(({ person, from }) => {
    const level = asked ? (problem.people[person]?.levels[asked.skill] ?? 0) : 0;
    const able =
      isCleared(problem, person, [...work.clearances, ...(asked?.clearances ?? [])], from) &&
      level >= (asked?.level ?? 0);
    return able ? [person] : [];
  });
}
