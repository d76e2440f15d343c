import type { Hand, Minute } from '@ribband/engine';
import type { ToldPlan } from '../plans/told-plan.js';

/** Somebody's unbroken time on one task at one turnout. Indices are the problem's. */
export interface Stretch {
  task: number;
  turnout: number;
  person: number;
  /** Index of the seat they fill, or null for a further hand. */
  seat: number | null;
  start: Minute;
  end: Minute;
}

/** A task's time at one turnout, with who is on it. */
export interface TurnoutWork {
  task: number;
  turnout: number;
  start: Minute;
  end: Minute;
  stretches: Stretch[];
  /** Most people on it at once. */
  mostHands: number;
}

/** The plan's work at some turnouts, in order of time. A crew that changes shows as stretches of its people. */
export function workAt(told: ToldPlan, turnouts: ReadonlySet<number>): TurnoutWork[] {
  const works = new Map<string, TurnoutWork>();
  for (const { task, turnout, start, end, crew } of told.plan?.segments ?? []) {
    if (turnout === null || !turnouts.has(turnout)) continue;
    const key = `${task} ${turnout}`;
    const work = works.get(key) ?? { task, turnout, start, end, stretches: [], mostHands: 0 };
    works.set(key, work);
    work.start = Math.min(work.start, start);
    work.end = Math.max(work.end, end);
    work.mostHands = Math.max(work.mostHands, crew.length);
    for (const hand of crew) lengthen(work, hand, start, end);
  }
  return [...works.values()].sort((a, b) => a.start - b.start || a.task - b.task);
}

/** Adds a segment to the stretch of the person that it goes on from, or begins a new one. */
function lengthen(work: TurnoutWork, { person, seat }: Hand, start: Minute, end: Minute): void {
  const goesOn = work.stretches.find(
    (stretch) => stretch.person === person && stretch.seat === seat && stretch.end === start,
  );
  if (goesOn) goesOn.end = end;
  else work.stretches.push({ task: work.task, turnout: work.turnout, person, seat, start, end });
}
