import type { CalledSeat, TurnoutEntity } from '@ribband/roster';
import type { BuiltProblem } from '../problem/build-problem.js';
import { realSkill } from '../week/roster/seats-of-week.js';
import type { CallOutcome } from './call-turnout.js';

/** The seats of a called turnout in the words of the records. */
export function heldSeats(
  { problem, epochAt }: BuiltProblem,
  turnout: TurnoutEntity,
  outcome: CallOutcome,
): CalledSeat[] {
  if (outcome.kind === 'no plan') return [];
  const within = (minute: number) =>
    Math.min(turnout.endsAt, Math.max(turnout.startsAt, epochAt + minute * 60_000));
  return outcome.work.flatMap(({ task, crew }) =>
    crew.map(({ person, seat, start, end }): CalledSeat => {
      const asked = seat === null ? undefined : problem.tasks[task]?.seats[seat];
      const skillId = asked ? realSkill(problem.skills[asked.skill]?.id) : null;
      return {
        turnoutId: turnout.id,
        taskId: problem.tasks[task]?.id ?? '',
        volunteerId: problem.people[person]?.id ?? '',
        skillId,
        level: asked && skillId !== null ? asked.level : 0,
        startsAt: within(start),
        endsAt: within(end),
      };
    }),
  );
}
