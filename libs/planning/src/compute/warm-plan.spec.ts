import type { Plan, Problem, Task } from '@ribband/engine';
import { warmPlan } from './warm-plan.js';

const task = (id: string): Task => ({
  id,
  name: id,
  effort: { kind: 'elapsed', minutes: 60 },
  crew: { min: 0, efficient: 0, max: 0 },
  seats: [],
  clearances: [],
  oneGo: true,
  setUpMinutes: 0,
  extraHandShare: 0.5,
  learnerShare: 0.5,
  tools: [],
  opens: [],
  closes: [],
  notBefore: null,
  progress: { kind: 'waiting' },
});

const yardOf = (...ids: string[]): Problem => ({
  format: 'ribband-problem/1',
  now: 0,
  horizon: 10_000,
  skills: [],
  clearances: [],
  turnouts: [],
  people: [],
  tools: [],
  elements: [],
  openingLimits: [],
  tasks: ids.map(task),
  links: [],
  posted: [],
  aim: { gate: 9_000, slots: [9_000] },
});

const old: Plan = {
  format: 'ribband-plan/1',
  ready: 180,
  slot: 0,
  segments: [],
  tasks: [0, 60, 120].map((start) => ({ start, end: start + 60, float: 0, heldBy: { kind: 'nothing' } })),
  launchChain: [],
  bound: { ready: 180, kind: 'critical path', bottleneck: null },
  proved: true,
  postingsChanged: 0,
  schedules: 3,
  drawn: { order: [2, 0, 1], crewing: [1, 2, 0], held: [4] },
};

describe('the plan in force, when the yard has changed', () => {
  it('keeps its order and crewing for the work that is still there; new work comes last, crewed as usual', () => {
    const input = { epochAt: 0, problem: yardOf('strip', 'pull', 'lift') };
    const now = yardOf('lift', 'plug', 'strip');
    const warm = warmPlan({ input, plan: old }, now, 0);
    expect(warm.drawn?.order.map((i) => now.tasks[i]?.id)).toEqual(['lift', 'strip']);
    expect(warm.drawn?.crewing).toEqual([0, 0, 1]);
    expect(warm.drawn?.held).toEqual([]);
    expect(warm.tasks.map(({ start }) => start)).toEqual([120, 180, 0]);
  });

  it('reads its times from the new first midnight', () => {
    const input = { epochAt: 0, problem: yardOf('strip', 'pull', 'lift') };
    const warm = warmPlan({ input, plan: old }, yardOf('strip', 'pull', 'lift'), 60 * 60_000);
    expect(warm.tasks.map(({ start }) => start)).toEqual([-60, 0, 60]);
  });
});
