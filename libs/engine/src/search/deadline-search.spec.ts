import { skillInstance } from '../../../../test/bench/generate/skills.js';
import { toProblem } from '../../../../test/bench/to-problem.js';
import { verifyPlan } from '../../../../test/engine/verify-plan.js';
import { layOut } from '../model/model.js';
import type { Problem } from '../problem.js';
import { solve } from '../solve.js';
import { Bench } from './bench.js';
import { DeadlineSearch } from './deadline-search.js';
import { canLineUp, Lineup } from './lineup.js';
import { Random } from './random.js';
import { Reseating } from './reseating.js';
import { Seating } from './seating.js';

function crewed(seed: number, tasks: number, people: number): Problem {
  return toProblem(skillInstance({ tasks, people, skills: 4, complexity: 1.6, mastery: 0.5, seed }));
}

/** A bench with a first plan, whose search has the deadline search alone to go on with. */
function benchFor(problem: Problem, budget: number): Bench {
  const bench = new Bench(
    problem,
    {},
    budget,
    () => false,
    () => undefined,
  );
  const list = bench.model.order.slice();
  bench.try(list, null);
  return bench;
}

function planLength(problem: Problem, schedules: number, steps: number): { ready: number; proved: boolean } {
  const outcome = solve(problem, { seed: 3, schedules, steps });
  if (outcome.kind !== 'plan') throw new Error('a plan was asked for');
  expect(verifyPlan(problem, outcome.plan)).toEqual([]);
  return outcome.plan;
}

describe('A plan that is rows of tasks', () => {
  it('keeps links, rows and the deadline whatever is set aside, put in or reseated', () => {
    for (let seed = 1; seed <= 8; seed++) {
      const problem = crewed(seed, 14, 9);
      const model = layOut(problem);
      const { best } = benchFor(problem, 1);
      if (best === null) throw new Error('no first plan');
      const random = new Random(seed);
      const line = new Lineup(model);
      const seating = new Seating(model.needs, model.crowd);
      const reseating = new Reseating(line, seating, model.need, model.crowd.count);
      line.settle(best.start, model.place, (i) =>
        model.need[i] < 0 ? [] : seating.seat(model.need[i], best.crew.subarray(i, i + 1)),
      );
      const deadline = best.ready;
      let reseated = 0;
      for (let times = 0; times < 200; times++) {
        const i = random.below(model.n);
        if (model.need[i] < 0) continue;
        if (line.hands[i] > 0) line.setAside(i);
        else {
          const to = deadline - line.tail[i] - line.minutes[i];
          line.lookBehind(i, to);
          seating.shuffle(random, 9);
          const s = line.start[i] + random.below(to - line.start[i] + 1);
          if (reseating.putIn(i, s, deadline)) reseated++;
        }
        expect(faultsOf(problem, line, deadline)).toEqual([]);
      }
      expect(reseated).toBeGreaterThan(10);
    }
  });

  it('gets shorter by deadlines', () => {
    let better = 0;
    for (let seed = 1; seed <= 6; seed++) {
      const problem = crewed(seed, 24, 6);
      const bench = benchFor(problem, 6000);
      expect(canLineUp(bench.model)).toBe(true);
      const first = bench.best?.ready ?? 0;
      new DeadlineSearch(bench, new Random(seed)).run(6000);
      if ((bench.best?.ready ?? 0) < first) better++;
    }
    expect(better).toBeGreaterThan(3);
  });

  it('is never shorter than the proved best, and mostly as short', () => {
    let met = 0;
    let proved = 0;
    for (let seed = 1; seed <= 12; seed++) {
      const problem = crewed(seed, 12, 8);
      const exact = planLength(problem, 600, 200_000);
      if (!exact.proved) continue;
      proved++;
      const found = planLength(problem, 4000, 0);
      expect(found.ready).toBeGreaterThanOrEqual(exact.ready);
      if (found.ready === exact.ready) met++;
    }
    expect(proved).toBeGreaterThan(8);
    expect(met).toBeGreaterThan(proved * 0.8);
  });
});

function faultsOf({ links, tasks, people }: Problem, line: Lineup, deadline: number): string[] {
  const { start, end, tail, hands, crew, seats } = line;
  const faults = links.flatMap(({ before, after }) =>
    start[after] < end[before] ? [`${after} starts before ${before} ends`] : [],
  );
  const rows = people.map((): number[] => []);
  tasks.forEach((_, i) => {
    if (end[i] + tail[i] > deadline) faults.push(`${i} misses the deadline`);
    for (let k = 0; k < hands[i]; k++) rows[crew[i * seats + k]].push(i);
  });
  for (const row of rows) {
    row.sort((a, b) => start[a] - start[b]);
    row.forEach((i, k) => {
      if (k > 0 && start[i] < end[row[k - 1]]) faults.push(`somebody is on ${row[k - 1]} and ${i} at once`);
    });
  }
  return faults;
}
