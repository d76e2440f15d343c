import type { Plan, Posting, Problem } from '@ribband/engine';
import { posted } from './yard-runs.js';

/** Something that happens to a yard whose coming week is posted. */
export interface Event {
  name: string;
  problem: Problem;
  /** Places of which one expects that they stay; those of somebody who is away are not among them. */
  postings: Posting[];
}

const WEEK = 7 * 24 * 60;

/** A tally that says that work goes slower, an absence, and stock that comes late. */
export function events(problem: Problem, plan: Plan): Event[] {
  const postings = posted(problem, plan);
  return [tally(problem, plan, postings), absence(problem, postings), delivery(problem, plan, postings)];
}

/** The first posted work needs half as much again. */
function tally(problem: Problem, plan: Plan, postings: Posting[]): Event {
  const first = plan.segments.find(
    ({ task, turnout }) => turnout !== null && problem.tasks[task].effort.kind === 'work',
  );
  if (!first) throw new Error('a yard without work');
  const tasks = problem.tasks.map((task, i) =>
    i === first.task && task.effort.kind === 'work'
      ? { ...task, effort: { ...task.effort, personMinutes: Math.round(1.5 * task.effort.personMinutes) } }
      : task,
  );
  return { name: 'a tally', problem: { ...problem, tasks, posted: postings }, postings };
}

/** Who has most places stays away from the first turnout that is posted for them. */
function absence(problem: Problem, postings: Posting[]): Event {
  const places = (who: number) => postings.filter(({ person }) => person === who);
  const [who] = postings
    .map(({ person }) => person)
    .sort((a, b) => places(b).length - places(a).length || a - b);
  const away = Math.min(...places(who).map(({ turnout }) => turnout));
  const left = postings.filter(({ person, turnout }) => person !== who || turnout !== away);
  const people = problem.people.map((person, p) =>
    p === who ? { ...person, stays: person.stays.filter(({ turnout }) => turnout !== away) } : person,
  );
  return { name: 'an absence', problem: { ...problem, people, posted: left }, postings: left };
}

/** The longest wait that is still to come takes two weeks more. */
function delivery(problem: Problem, plan: Plan, postings: Posting[]): Event {
  const lengths = problem.tasks.map(({ effort, progress }, i) =>
    effort.kind === 'elapsed' && progress.kind === 'waiting' && plan.tasks[i].start >= problem.now
      ? effort.minutes
      : 0,
  );
  const late = lengths.indexOf(Math.max(...lengths));
  const tasks = problem.tasks.map((task, i) =>
    i === late && task.effort.kind === 'elapsed'
      ? { ...task, effort: { ...task.effort, minutes: task.effort.minutes + 2 * WEEK } }
      : task,
  );
  return { name: 'a late delivery', problem: { ...problem, tasks, posted: postings }, postings };
}
