import { solve, type Problem } from '@ribband/engine';
import { verifyPlan } from '../../engine/verify-plan.js';
import { solved } from '../answer.js';
import { seldom, threadSeconds } from '../clock.js';
import type { ToolInstance } from '../instance.js';
import { verifySchedule } from '../verify-schedule.js';
import { solveClassical } from './classical-model.js';
import type { Solver } from './solver.js';
import { planFrom, solveYard } from './yard-model.js';

/** What both sides found for one problem in the same computing time, one after the other on one thread each. */
export interface Beside {
  name: string;
  ours: Side;
  theirs: Side;
}

export interface Side {
  /** When all is done; null where nothing was found in time. */
  value: number | null;
  proved: boolean;
  seconds: number;
  /** Rules that the answer breaks; empty when sound. */
  faults: string[];
}

const SEED = 1;

export async function besideClassical(
  solver: Solver,
  name: string,
  instance: ToolInstance,
  seconds: number,
): Promise<Beside> {
  const clock = threadSeconds();
  const options = { schedules: undefined, seconds, seed: SEED };
  const { answer } = solved(name, instance, options, clock, seldom(clock, 32));
  const { best, proved, seconds: spent } = await solveClassical(solver, instance, seconds);
  return checked({
    name,
    ours: {
      value: answer.makespan,
      proved: answer.proved,
      seconds: answer.seconds,
      faults: verifySchedule(instance, answer),
    },
    theirs: {
      value: best?.makespan ?? null,
      proved,
      seconds: spent,
      faults: best ? verifySchedule(instance, { starts: best.start, makespan: best.makespan }) : [],
    },
  });
}

export async function besideYard(
  solver: Solver,
  name: string,
  problem: Problem,
  seconds: number,
): Promise<Beside> {
  const clock = threadSeconds();
  const look = seldom(clock, 32);
  const begun = clock();
  const outcome = solve(problem, { seed: SEED, shouldStop: () => look() - begun >= seconds });
  const plan = outcome.kind === 'plan' ? outcome.plan : null;
  const ours = {
    value: plan?.ready ?? null,
    proved: plan?.proved ?? false,
    seconds: clock() - begun,
    faults: plan ? verifyPlan(problem, plan).map(({ says }) => says) : [],
  };
  const { best, proved, seconds: spent } = await solveYard(solver, problem, seconds);
  const theirPlan = best ? planFrom(problem, best) : null;
  return checked({
    name,
    ours,
    theirs: {
      value: theirPlan?.ready ?? null,
      proved,
      seconds: spent,
      faults: theirPlan ? verifyPlan(problem, theirPlan).map(({ says }) => says) : [],
    },
  });
}

/** Where one side has proved its answer the best, the other can't be better: else one of them is wrong. */
function checked(one: Beside): Beside {
  const { ours, theirs } = one;
  const beats = (a: Side, b: Side) => a.value !== null && b.value !== null && b.proved && a.value < b.value;
  if (beats(ours, theirs)) ours.faults.push(`beats ${theirs.value}, which the solver has proved`);
  if (beats(theirs, ours)) ours.faults.push(`proved ${ours.value} and is beaten by ${theirs.value}`);
  return one;
}
