import type { SeatToPost } from '@ribband/roster';
import type { ToldPlan } from '../plans/told-plan.js';
import { freeHands } from './gaps.js';
import { workAt } from './stretches.js';
import { realSkill } from './week-book.js';
import { whyThere } from './why.js';

/**
 * The seats that a plan wants posted at some turnouts: its people by name, and open ones up to the crew that works
 * best. A say-so that takes no time is no place.
 */
export function seatsToPost(
  told: ToldPlan,
  turnoutIds: ReadonlySet<string>,
  droppedIds: ReadonlySet<string>,
): SeatToPost[] {
  const { problem } = told;
  const wanted = new Set(problem.turnouts.flatMap(({ id }, w) => (turnoutIds.has(id) ? [w] : [])));
  return workAt(told, wanted).flatMap((work): SeatToPost[] => {
    const task = problem.tasks[work.task];
    const turnoutId = problem.turnouts[work.turnout]?.id ?? '';
    if (!task || droppedIds.has(task.id) || work.end <= work.start) return [];
    const named = work.stretches.map((stretch): SeatToPost => {
      const seat = stretch.seat === null ? undefined : task.seats[stretch.seat];
      const skillId = seat ? realSkill(problem.skills[seat.skill]?.id) : null;
      return {
        turnoutId,
        taskId: task.id,
        skillId,
        level: seat && skillId !== null ? seat.level : 0,
        volunteerId: problem.people[stretch.person]?.id ?? null,
        startsAt: told.instant(stretch.start),
        endsAt: told.instant(stretch.end),
        why: whyThere(told, work, stretch),
      };
    });
    const open = Array.from({ length: freeHands(task, work) }, (): SeatToPost => ({
      turnoutId,
      taskId: task.id,
      skillId: null,
      level: 0,
      volunteerId: null,
      startsAt: told.instant(work.start),
      endsAt: told.instant(work.end),
      why: null,
    }));
    return [...named, ...open];
  });
}
