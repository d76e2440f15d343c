import { inWords } from '@ribband/crew';
import type { ToldPlan } from '../plans/told-plan.js';
import { count } from '../words/days.js';
import { inSentence } from '../words/hold.js';
import { whoCanSit } from './presence.js';
import type { Stretch, TurnoutWork } from './stretches.js';

/**
 * What somebody is there for, as a sentence for them and for the coordinator.
 * @param wasOnIt whether they were on this task before; by the plan when left out
 */
export function whyThere(
  told: ToldPlan,
  work: TurnoutWork,
  stretch: Stretch,
  wasOnIt = wasOnItBefore(told, stretch),
): string {
  const { problem } = told;
  const task = problem.tasks[stretch.task];
  const person = problem.people[stretch.person];
  if (!task || !person) return '';
  const seat = stretch.seat === null ? undefined : task.seats[stretch.seat];
  const skill = seat && problem.skills[seat.skill];
  const goesOn = wasOnIt ? ' Has been on it before.' : '';
  if (!seat || !skill || skill.id === 'adult') return `${asHand(told, work, stretch)}${goesOn}`;
  const level = person.levels[seat.skill] ?? 0;
  const able = whoCanSit(problem, stretch.task, seat, stretch.turnout).length;
  const rarity =
    able <= seat.count
      ? seat.count === 1
        ? 'the only one that day'
        : 'nobody else can that day'
      : `one of ${able} who can that day`;
  const beside = level === 1 ? teacherBeside(told, work, stretch, seat.skill) : '';
  return `For ${inSentence(skill.name)}, ${inWords(level)}: ${rarity}.${beside}${goesOn}`;
}

function asHand(told: ToldPlan, work: TurnoutWork, stretch: Stretch): string {
  const least = Math.max(1, told.problem.tasks[stretch.task]?.crew.min ?? 1);
  if (work.mostHands <= least) return `A hand: it takes ${count(least, 'person', 'people')}.`;
  return `One of ${work.mostHands} hands: ${least} ${least === 1 ? 'is' : 'are'} enough, ${work.mostHands} get it done sooner.`;
}

function teacherBeside(told: ToldPlan, work: TurnoutWork, stretch: Stretch, skill: number): string {
  const { problem } = told;
  const teacher = work.stretches
    .filter(
      (other) => other.person !== stretch.person && other.start < stretch.end && stretch.start < other.end,
    )
    .map((other) => problem.people[other.person])
    .sort((a, b) => (b?.levels[skill] ?? 0) - (a?.levels[skill] ?? 0))[0];
  return teacher && (teacher.levels[skill] ?? 0) >= 2 ? ` Beside ${teacher.name}.` : '';
}

function wasOnItBefore(told: ToldPlan, stretch: Stretch): boolean {
  return (told.plan?.segments ?? []).some(
    (segment) =>
      segment.task === stretch.task &&
      segment.turnout !== stretch.turnout &&
      segment.end <= stretch.start &&
      segment.crew.some(({ person }) => person === stretch.person),
  );
}
