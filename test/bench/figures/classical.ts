import { solve } from '@ribband/engine';
import { cpuSeconds } from '../clock.js';
import { cells, classicalInstance } from '../generate/classical.js';
import { skillInstance } from '../generate/skills.js';
import type { ToolInstance } from '../instance.js';
import { PlainSchedules } from '../reference/plain.js';
import { mean } from '../research/deviation.js';
import { scheduleOf, toProblem } from '../to-problem.js';
import { verifySchedule } from '../verify-schedule.js';
import { figure, type Figure } from './figure.js';

/** Generated projects with scarce resources, a few of each complexity: those where a search has something to do. */
export function scarce(tasks: number, count: number): ToolInstance[] {
  const hard = cells(tasks).filter(({ factor, strength }) => factor >= 0.5 && strength <= 0.5);
  return Array.from({ length: count }, (_, k) =>
    classicalInstance({ ...hard[(k * 5) % hard.length], seed: 1000 * tasks + k }),
  );
}

/** How fast schedules are generated, against the plain loop. */
export function* speed(): Generator<Figure> {
  for (const [tasks, passes] of [
    [30, 60_000],
    [60, 40_000],
    [120, 20_000],
  ]) {
    let ours = 0;
    let spent = 0;
    let plain = 0;
    let plainSpent = 0;
    for (const [k, instance] of scarce(tasks, 4).entries()) {
      const problem = toProblem(instance);
      // The first run is for the compiler.
      if (k === 0) solve(problem, { seed: 1, schedules: passes / 10 });
      const begun = cpuSeconds();
      const outcome = solve(problem, { seed: 1, schedules: passes });
      spent += cpuSeconds() - begun;
      ours += outcome.kind === 'plan' ? outcome.plan.schedules : 0;
      const reference = new PlainSchedules(instance);
      const start = cpuSeconds();
      reference.bySampling(passes / 20, 1);
      plainSpent += cpuSeconds() - start;
      plain += passes / 20;
    }
    const name = `schedules a second, ${tasks} tasks`;
    yield figure(name, ours / spent, 'schedules/s', 'plain serial generation', plain / plainSpent);
  }
}

/** How far plans are from the proved lower bound, against sampling with as many schedules. */
export function* quality(fault: (says: string) => void): Generator<Figure> {
  const passes = 1000;
  for (const tasks of [30, 60, 120]) {
    const ours: number[] = [];
    const sampled: number[] = [];
    const ruled: number[] = [];
    for (const instance of scarce(tasks, 10)) {
      const problem = toProblem(instance);
      const outcome = solve(problem, { seed: 1, schedules: passes });
      if (outcome.kind === 'no plan') throw new Error('a generated project has no plan');
      const { plan } = outcome;
      const printed = { ...scheduleOf(instance, problem, plan), makespan: plan.ready };
      for (const says of verifySchedule(instance, printed)) fault(`${tasks} tasks: ${says}`);
      const plain = new PlainSchedules(instance);
      const over = (makespan: number) => 100 * (makespan / plan.bound.ready - 1);
      ours.push(over(plan.ready));
      sampled.push(over(plain.bySampling(passes, 1)));
      ruled.push(over(plain.byRule()));
    }
    const name = `% over the bound, ${tasks} tasks, ${passes} schedules`;
    yield figure(
      `${name}, beside sampling`,
      mean(ours) ?? 0,
      '%',
      'biased sampling, as many schedules',
      mean(sampled) ?? 0,
    );
    yield figure(
      `${name}, beside a rule`,
      mean(ours) ?? 0,
      '%',
      'the least late finish first',
      mean(ruled) ?? 0,
    );
  }
}

/** Multi-skill projects: against the engine's own first plan, since a rule for crews is a search of its own. */
export function* skills(fault: (says: string) => void): Generator<Figure> {
  const passes = 2000;
  const ours: number[] = [];
  const first: number[] = [];
  for (let seed = 1; seed <= 8; seed++) {
    const wish = { tasks: 30, skills: 4, people: 8, complexity: 1.5 + 0.3 * (seed % 3), mastery: 0.4, seed };
    const instance = skillInstance(wish);
    const problem = toProblem(instance);
    let begun = 0;
    const outcome = solve(problem, {
      seed: 1,
      schedules: passes,
      onBetter: ({ ready }) => (begun ||= ready),
    });
    if (outcome.kind === 'no plan') throw new Error('a generated project has no plan');
    const { plan } = outcome;
    const printed = { ...scheduleOf(instance, problem, plan), makespan: plan.ready };
    for (const says of verifySchedule(instance, printed)) fault(`multi-skill ${seed}: ${says}`);
    ours.push(100 * (plan.ready / plan.bound.ready - 1));
    first.push(100 * (begun / plan.bound.ready - 1));
  }
  const name = `% over the bound, multi-skill, 30 tasks, ${passes} schedules`;
  yield figure(name, mean(ours) ?? 0, '%', 'the first plan', mean(first) ?? 0);
}
