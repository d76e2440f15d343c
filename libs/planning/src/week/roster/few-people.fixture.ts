import type { Person, Problem, Stay, Task } from '@ribband/engine';
import type { PlanEntity } from '../../plans/plan.entity.js';
import type { PlanInput } from '../../plans/plan-input.js';
import { ToldPlan } from '../../plans/told-plan.js';
import type { RosterFacts } from './candidates.js';
import type { WeekSeat } from './seats-of-week.js';

/* What rosters are made from, small enough to be seen at a glance: Saturday and Sunday, 300 minutes each. */

const day = 1440;
export const stay = (turnout: number): Stay => ({
  turnout,
  from: turnout * day,
  to: turnout * day + 300,
  showUp: 1,
});
export const person = (name: string, change: Partial<Person> = {}): Person => ({
  id: name,
  name,
  levels: [],
  stays: [stay(0), stay(1)],
  clearances: [],
  minutesAWeek: null,
  minutesATurnout: null,
  ...change,
});
const sawing: Task['seats'][number] = { skill: 0, level: 2, count: 1, clearances: [] };

/** The task that asks for a sawyer; the others ask for no skill. */
export const sawn = 8;

export function toldOf(...people: Person[]): ToldPlan {
  const turnouts = [0, 1].map((n) => ({ id: `turnout-${n}`, start: n * day, end: n * day + 300 }));
  const tasks = Array.from({ length: 9 }, (_, n) => ({
    id: `task-${n}`,
    name: `Task ${n}`,
    crew: { min: 1, efficient: 1, max: 2 },
    seats: n === sawn ? [sawing] : [],
    clearances: [],
    learnerShare: 0.5,
  }));
  const problem = {
    now: 0,
    skills: [{ id: 'saw', name: 'Sawing' }],
    turnouts,
    people,
    tasks,
  } as unknown as Problem;
  const input = { problem, epochAt: 0, timeZone: 'UTC', linkIds: [] } as unknown as PlanInput;
  const plan = { segments: [], tasks: tasks.map(() => ({ float: 0 })) };
  return new ToldPlan({ outcome: { kind: 'plan', plan } } as unknown as PlanEntity, input);
}

/** A seat on a task of its own. */
export function seat(
  n: number,
  at: { turnout?: number; planned?: number | null; from?: number; to: number },
): WeekSeat {
  const { turnout = 0, planned = null, from = 0, to } = at;
  const [start, end] = [turnout * day + from, turnout * day + to];
  const work = { task: n, turnout, start, end, stretches: [], mostHands: 1 };
  return {
    key: `seat-${n}`,
    work,
    turnout,
    task: n,
    seat: n === sawn ? 0 : null,
    start,
    end,
    planned,
    isExtra: false,
  };
}

export const facts = (change: Partial<RosterFacts> = {}): RosterFacts => ({
  stops: () => [],
  stoppedInCompany: (held) => held.map(() => []),
  taken: new Map(),
  lessons: [],
  asked: new Map(),
  knows: () => null,
  dullBefore: () => 0,
  standsBy: () => true,
  wouldLearn: () => false,
  ...change,
});
