import type { Hold, Link, Plan, Problem } from '@ribband/engine';
import { type DayWords, span } from './days.js';

/** What is needed to speak of a plan: the problem it solves, and when its minutes are. */
export interface Told {
  problem: Problem;
  plan: Plan;
  epochAt: number;
  days: DayWords;
}

export const instantOf = (told: Pick<Told, 'epochAt'>, minute: number): number =>
  told.epochAt + minute * 60_000;

/** A task's title as it stands in a sentence. */
export function quoted(problem: Problem, task: number): string {
  return `“${problem.tasks[task]?.name ?? ''}”`;
}

/** What a link asks of the task that follows, as a sentence. */
export function linkSentence(problem: Problem, link: Link): string {
  const before = quoted(problem, link.before);
  const first = {
    'finish-to-start': `Starts after ${before} has ended`,
    'start-to-start': `Starts after ${before} has started`,
    'finish-to-finish': `Ends after ${before} has ended`,
    'start-to-finish': `Ends after ${before} has started`,
  }[link.relation];
  if (link.lag === 0) return `${first}.`;
  const length = span(Math.abs(link.lag), link.lagKind === 'elapsed');
  const kind = link.lagKind === 'working' ? ' of turnouts' : '';
  return link.lag > 0
    ? `${first} and ${length}${kind} have passed.`
    : `${first}, or up to ${length}${kind} before.`;
}

/** Why a task does not start earlier than it does, as a sentence. */
export function holdSentence(told: Told, task: number, hold: Hold): string {
  const { problem, plan } = told;
  const until = (other: number): string => {
    const times = plan.tasks[other];
    return times ? told.days.atWeekday(instantOf(told, times.end)) : 'then';
  };
  switch (hold.kind) {
    case 'nothing':
      return 'Nothing holds it back.';
    case 'link': {
      const link = problem.links[hold.link];
      return link ? linkSentence(problem, link) : '';
    }
    case 'person': {
      const name = problem.people[hold.person]?.name ?? '';
      return `${name} is on ${quoted(problem, hold.task)} until ${until(hold.task)}.`;
    }
    case 'skill': {
      const name = problem.skills[hold.skill]?.name ?? '';
      return hold.task === null
        ? `Waits for somebody for ${inSentence(name)}: nobody who can is there before.`
        : `Waits for somebody for ${inSentence(name)}: on ${quoted(problem, hold.task)} until ${until(hold.task)}.`;
    }
    case 'crew':
      return hold.task === null
        ? 'Waits for hands: too few are there before.'
        : `Waits for hands: on ${quoted(problem, hold.task)} until ${until(hold.task)}.`;
    case 'tool': {
      const name = problem.tools[hold.tool]?.name ?? '';
      return `Waits for the ${inSentence(name)}: in use for ${quoted(problem, hold.task)} until ${until(hold.task)}.`;
    }
    case 'opening': {
      const name = problem.openingLimits[hold.limit]?.name ?? '';
      return `Opening limit “${name}”: no more may be open until ${quoted(problem, hold.task)} is done, ${until(hold.task)}.`;
    }
    case 'calendar':
      return 'Starts with the next turnout.';
    case 'not before': {
      const minute = problem.tasks[task]?.notBefore;
      return minute === undefined || minute === null
        ? 'Not to be started before.'
        : `Not before ${told.days.at(instantOf(told, minute))}.`;
    }
    case 'posted':
      return 'The people for it are posted then.';
  }
}

/** A skill or a tool as its name stands inside a sentence. */
export function inSentence(name: string): string {
  return name.slice(0, 1).toLowerCase() + name.slice(1);
}
