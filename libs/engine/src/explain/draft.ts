import type { WorkCalendar } from '../calendar.js';
import type { Segment } from '../plan.js';
import type { Minute, Problem } from '../problem.js';

/** A plan before it is explained: who does what when, looked up by task, person and turnout. */
export interface Draft {
  problem: Problem;
  calendar: WorkCalendar;
  start: ArrayLike<Minute>;
  end: ArrayLike<Minute>;
  /** In order of start. */
  segments: Segment[];
  /** Indices into `segments`, in order of time. */
  ofTask: number[][];
  ofPerson: number[][];
  ofTurnout: number[][];
  ready: Minute;
}

export function draftOf(
  problem: Problem,
  calendar: WorkCalendar,
  start: ArrayLike<Minute>,
  end: ArrayLike<Minute>,
  segments: Segment[],
  ready: Minute,
): Draft {
  const ofTask: number[][] = problem.tasks.map(() => []);
  const ofPerson: number[][] = problem.people.map(() => []);
  const ofTurnout: number[][] = problem.turnouts.map(() => []);
  segments.forEach((segment, k) => {
    ofTask[segment.task].push(k);
    if (segment.turnout !== null) ofTurnout[segment.turnout].push(k);
    if (segment.end > segment.start) for (const { person } of segment.crew) ofPerson[person].push(k);
  });
  return { problem, calendar, start, end, segments, ofTask, ofPerson, ofTurnout, ready };
}

/** Whether time passes by itself for this task, so that it moves by the calendar and not by working minutes. */
export function passesByItself(problem: Problem, task: number): boolean {
  const { kind } = problem.tasks[task].effort;
  return kind === 'elapsed' || kind === 'hold';
}

export function startsFrom(relation: string): boolean {
  return relation === 'start-to-start' || relation === 'start-to-finish';
}

export function bindsEnd(relation: string): boolean {
  return relation === 'finish-to-finish' || relation === 'start-to-finish';
}
