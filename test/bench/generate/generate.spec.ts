import { checkProblem, lowerBound, solve, type Problem } from '@ribband/engine';
import { refuseCircles } from '../instance.js';
import { PlainSchedules } from '../reference/plain.js';
import { toProblem } from '../to-problem.js';
import { cells, classicalInstance, earlyStarts } from './classical.js';
import { skillInstance } from './skills.js';
import { smallYard } from './small-yard.js';
import { generatedYard, usualYard } from './yard.js';

const classical = { tasks: 30, complexity: 1.8, factor: 0.5, strength: 0.2, seed: 4 };
const multiSkill = { tasks: 20, skills: 4, people: 6, complexity: 1.5, mastery: 0.4, seed: 4 };
const small = { tasks: 15, people: 10, weeks: 12, seed: 4 };

describe('generated instances', () => {
  const drawn: [string, (seed: number) => unknown][] = [
    ['single-mode projects', (seed) => classicalInstance({ ...classical, seed })],
    ['multi-skill projects', (seed) => skillInstance({ ...multiSkill, seed })],
    ['yards', (seed) => generatedYard(usualYard(60, seed))],
    ['small yards', (seed) => smallYard({ ...small, seed })],
  ];

  it.each(drawn)('%s are the same for the same seed and others for another', (_, draw) => {
    expect(draw(4)).toEqual(draw(4));
    expect(draw(5)).not.toEqual(draw(4));
  });

  it.each(cells(30))('have the complexity, factor and strength asked for: %o', (cell) => {
    const { order, durations, takes, capacity } = classicalInstance({ ...cell, seed: 1 });
    refuseCircles(order, durations.length, 1);
    expect(order.length / durations.length).toBeCloseTo(cell.complexity, 1);
    const asked = takes.flat().filter((count) => count > 0).length;
    expect(asked / (cell.tasks * capacity.length)).toBeCloseTo(cell.factor, 2);
    const starts = earlyStarts(durations, order);
    capacity.forEach((units, r) => {
      const least = Math.max(...takes.map((row) => row[r]));
      const peak = Math.max(
        least,
        ...starts.map((at) =>
          takes.reduce(
            (sum, row, i) => sum + (starts[i] <= at && at < starts[i] + durations[i] ? row[r] : 0),
            0,
          ),
        ),
      );
      expect(units).toBe(Math.max(1, Math.round(least + cell.strength * (peak - least))));
    });
  });

  it('hold no link that follows from others', () => {
    const { order } = classicalInstance(classical);
    const follows = (from: number, to: number, skipped: number): boolean =>
      order.some(([a, b], k) => k !== skipped && a === from && (b === to || follows(b, to, skipped)));
    order.forEach(([a, b], k) => {
      expect(follows(a, b, k)).toBe(false);
    });
  });

  const problems: [string, Problem][] = [
    ['a multi-skill project', toProblem(skillInstance(multiSkill))],
    ['a yard of 60 tasks', generatedYard(usualYard(60, 1))],
    ['a yard of 137 tasks', generatedYard(usualYard(137, 2))],
    ['a small yard', smallYard(small)],
  ];

  it.each(problems)('%s is sound and has a plan', (_, problem) => {
    expect(checkProblem(problem)).toEqual([]);
    expect(solve(problem, { seed: 1, schedules: 2 }).kind).toBe('plan');
  });
});

describe('the plain schedules that the engine is measured against', () => {
  it('keep what the bound says and are never better than a proved plan', () => {
    const instance = classicalInstance({ tasks: 10, complexity: 1.5, factor: 0.75, strength: 0.3, seed: 2 });
    const problem = toProblem(instance);
    const plain = new PlainSchedules(instance);
    const outcome = solve(problem, { seed: 1, schedules: 20_000 });
    if (outcome.kind === 'no plan') throw new Error('no plan');
    const sampled = plain.bySampling(200, 1);
    expect(plain.byRule()).toBeGreaterThanOrEqual(lowerBound(problem).ready);
    expect(sampled).toBeLessThanOrEqual(plain.byRule());
    expect(sampled).toBeGreaterThanOrEqual(outcome.plan.ready);
  });
});
