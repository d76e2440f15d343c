import type { Problem } from '@ribband/engine';
import type { Task } from '@ribband/repair';
import type { YardExperience } from '../beliefs/beliefs.js';
import { kindOf } from '../beliefs/read-experience.js';

/** Pieces a person-hour: a slow day, a usual one, a good one. */
interface Pace {
  low: number;
  likely: number;
  high: number;
}

/**
 * The problem and what is known of its work as they would be if counted tasks that nobody has begun went at another
 * rate. Pure; nothing that was given is altered.
 * @returns null where no task of the problem would change
 */
export function atRate(
  problem: Problem,
  known: YardExperience,
  tasks: readonly Task[],
  rate: Pace,
): { problem: Problem; known: YardExperience } | null {
  const slower = new Map(
    tasks
      .filter(({ low, likely, high }) => low !== rate.low || likely !== rate.likely || high !== rate.high)
      .map((task) => [task.id, task]),
  );
  const changes = (id: string) => slower.has(id);
  if (!problem.tasks.some(({ id, effort }) => effort.kind === 'work' && changes(id))) return null;
  return {
    problem: {
      ...problem,
      tasks: problem.tasks.map((one) => {
        const { count = null } = slower.get(one.id) ?? {};
        if (count === null || one.effort.kind !== 'work') return one;
        const personMinutes = Math.max(1, Math.round((count / rate.likely) * 60));
        return { ...one, effort: { kind: 'work' as const, personMinutes } };
      }),
    },
    known: {
      ...known,
      tasks: new Map(
        [...known.tasks].map(([id, experience]) => {
          const task = slower.get(id);
          return [id, task ? { kind: kindOf({ ...task, ...rate }), points: null } : experience];
        }),
      ),
    },
  };
}
