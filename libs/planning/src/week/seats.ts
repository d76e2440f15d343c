import type { SeatToPost, SwingToPost } from '@ribband/roster';
import type { ToldPlan } from '../plans/told-plan.js';
import { seatedAs } from './roster/read-facts.js';
import { asksOfSecond, saySecond } from './roster/second-hands.js';
import type { ToldRoster } from './roster/told-roster.js';

/**
 * The seats of a roster as they are posted: its people by name, open ones up to the crew that works best, and second
 * hands beside their teachers.
 */
export function seatsToPost(told: ToldPlan, { held, seconds }: ToldRoster): SeatToPost[] {
  return [
    ...held.map(({ seat, person, why }) => ({
      ...seatedAs(told, seat, person),
      // Who holds a place reads it: who else could be there is nothing to them.
      why: why?.there ?? null,
    })),
    ...seconds.map((second) => ({
      ...seatedAs(told, second.seat, second.learner),
      ...asksOfSecond(told, second),
      why: saySecond(told, second),
      teacherId: told.problem.people[second.teacher]?.id ?? null,
    })),
  ];
}

/** Who is told to stand by where. */
export function swingToPost({ problem }: ToldPlan, { swing }: ToldRoster): SwingToPost[] {
  return [...swing].flatMap(([turnout, ids]) =>
    ids.map((volunteerId) => ({ turnoutId: problem.turnouts[turnout]?.id ?? '', volunteerId })),
  );
}
