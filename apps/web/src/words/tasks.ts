import { count, list, lowerFirst, sayElapsed, sayRate, sayWork } from './amounts.js';

/** The states of a task as the yard says them, in the order in which work goes. */
export const stateWords = {
  WAITING: 'waiting for other work',
  CLEAR: 'clear to start',
  TAKEN: 'taken',
  UNDER_WAY: 'under way',
  SHOWN: 'shown, waits for a say-so',
  PASSED: 'passed',
  HELD: 'held',
  REDO: 'to be done again',
  DROPPED: 'dropped',
} as const;

export type State = keyof typeof stateWords;

interface ThreePoint {
  low: number;
  likely: number;
  high: number;
}

export type Estimate =
  | {
      __typename: 'CountEstimate';
      unit: string;
      count: number;
      countDone: number;
      countLeft: number;
      perPersonHour: ThreePoint;
    }
  | { __typename: 'WorkEstimate'; personMinutes: ThreePoint }
  | { __typename: 'TimeEstimate'; minutes: ThreePoint };

export function sayEstimate(estimate: Estimate | null | undefined): string {
  if (!estimate) return 'No work of its own: it waits for a say-so or a date.';
  switch (estimate.__typename) {
    case 'CountEstimate': {
      const { low, likely, high } = estimate.perPersonHour;
      const done = estimate.countDone ? `, ${estimate.countLeft.toLocaleString('en')} left` : '';
      return `${estimate.count.toLocaleString('en')} ${estimate.unit}${done}. One person does about ${sayRate(likely)} an hour (${sayRate(low)} to ${sayRate(high)}).`;
    }
    case 'WorkEstimate': {
      const { low, likely, high } = estimate.personMinutes;
      return `About ${sayWork(likely)} (${sayWork(low).replace(/ person-hours?$/, '')} to ${sayWork(high)}).`;
    }
    case 'TimeEstimate': {
      const { low, likely, high } = estimate.minutes;
      return low === high
        ? `Takes ${sayElapsed(likely)} by itself.`
        : `Takes about ${sayElapsed(likely)} by itself (${sayElapsed(low)} to ${sayElapsed(high)}).`;
    }
  }
}

/** "2 to 4 people, best with 3" */
export function sayCrew(min: number, efficient: number, max: number): string {
  if (max === 0) return 'Nobody need be there.';
  if (min === max) return `${count(min, 'person', 'people')}, no more and no fewer.`;
  return `${min} to ${count(max, 'person', 'people')}, best with ${efficient}.`;
}

/** "1 person for sawing who works alone, or better" */
export function saySeat(seat: { count: number; skill: { name: string }; levelWords: string }): string {
  return `${count(seat.count, 'person', 'people')} for ${lowerFirst(seat.skill.name)}: ${seat.levelWords}, or better`;
}

/** How a list of tasks stands: "2 passed, 1 under way, 3 waiting for other work" */
export function sayStates(states: State[]): string {
  const tally = (Object.keys(stateWords) as State[])
    .map((state) => ({ state, many: states.filter((each) => each === state).length }))
    .filter((each) => each.many > 0);
  return list(tally.map((each) => `${each.many} ${stateWords[each.state].split(',')[0]}`));
}

/** Where a task is, said; work without a place is said to be ashore. */
export function sayPosition(position: string | null | undefined): string {
  return position ?? 'Ashore';
}
