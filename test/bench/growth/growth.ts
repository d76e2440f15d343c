import { writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { solve, type Problem } from '@ribband/engine';
import { verifyPlan } from '../../engine/verify-plan.js';
import { numberOf } from '../answer.js';
import { cpuSeconds, seldom } from '../clock.js';
import { generatedYard, usualYard } from '../generate/yard.js';
import { madeOn, markdown, putBetween } from '../table/between.js';
import { plot } from './plot.js';

const SIZES = [100, 200, 500, 1000, 2000, 5000, 10_000];
/** What counts as near the best plan of the run, as a share of its length. */
const NEAR = 0.02;

interface Grown {
  tasks: number;
  people: number;
  first: number;
  near: number;
  gap: number;
  faults: string[];
}

/**
 * `npm run bench -- growth [--seconds S]`: computing time to the first plan of generated yards of 100 to 10,000 tasks,
 * and to one within 2 % of the best that the run found in S seconds (30), as a plot and a table in the bench's README.
 */
export async function growth(args: string[]): Promise<number> {
  const { values } = parseArgs({ args, options: { seconds: { type: 'string' } } });
  const seconds = numberOf(values, 'seconds') ?? 30;
  // The first run is for the compiler.
  measured(generatedYard(usualYard(200, 2)), 1);
  const rows = SIZES.map((tasks) => {
    const row = measured(generatedYard(usualYard(tasks, 1)), seconds);
    process.stderr.write(
      `${tasks} tasks: first plan ${row.first.toFixed(3)} s, near the best ${row.near.toFixed(2)} s\n`,
    );
    return row;
  });
  const series = [
    { name: 'first plan', points: rows.map(({ tasks, first }): [number, number] => [tasks, first]) },
    {
      name: `within ${100 * NEAR} % of the best plan after ${seconds} s`,
      points: rows.map(({ tasks, near }): [number, number] => [tasks, near]),
    },
  ];
  const folder = new URL('../../../', import.meta.url);
  writeFileSync(
    new URL('growth.svg', folder),
    plot('Computing time of a yard by its number of tasks', series),
  );
  const table = markdown(
    ['tasks', 'people', 'first plan', `within ${100 * NEAR} % of the best`, 'best over the bound'],
    rows.map(({ tasks, people, first, near, gap }) => [
      tasks.toLocaleString('en'),
      String(people),
      `${first.toFixed(3)} s`,
      `${near.toFixed(2)} s`,
      `${(100 * gap).toFixed(1)} %`,
    ]),
  );
  await putBetween(
    new URL('README.md', folder).pathname,
    'growth',
    `${madeOn()} ${seconds} s of search each, seed 1.\n\n${table}`,
  );
  const faults = rows.flatMap((row) => row.faults.map((says) => `${row.tasks} tasks: ${says}`));
  for (const says of faults) process.stderr.write(`${says}\n`);
  return faults.length > 0 ? 1 : 0;
}

function measured(problem: Problem, seconds: number): Grown {
  const clock = seldom(cpuSeconds, 4);
  const begun = cpuSeconds();
  const better: { at: number; ready: number }[] = [];
  const outcome = solve(problem, {
    seed: 1,
    shouldStop: () => better.length > 0 && clock() - begun >= seconds,
    onBetter: ({ ready }) => better.push({ at: cpuSeconds() - begun, ready }),
  });
  if (outcome.kind === 'no plan')
    throw new Error(`a generated yard has no plan: ${JSON.stringify(outcome.wishes)}`);
  const { plan } = outcome;
  const near = better.find(({ ready }) => ready <= plan.ready * (1 + NEAR));
  return {
    tasks: problem.tasks.length,
    people: problem.people.length,
    first: better[0].at,
    near: near?.at ?? cpuSeconds() - begun,
    gap: plan.ready / plan.bound.ready - 1,
    faults: verifyPlan(problem, plan).map(({ rule, says }) => `${rule}: ${says}`),
  };
}
