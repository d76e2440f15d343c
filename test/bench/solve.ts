import { readFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { solve } from '@ribband/engine';
import { readInstance } from './read-instance.js';
import { scheduleOf, toProblem, type Schedule } from './to-problem.js';

/**
 * `npm run --silent solve -- [--schedules N] [--seconds S] [--seed K] FILE...`
 *
 * Plans classical instances with the engine that plans the yard and prints one line of JSON a file. A file that can't
 * be read gives `{"file","error"}`, and exit code 1 at the end.
 */
interface Answer extends Schedule {
  file: string;
  makespan: number;
  lowerBound: number;
  proved: boolean;
  schedules: number;
  seconds: number;
}

interface Options {
  schedules: number | undefined;
  seconds: number | undefined;
  seed: number;
}

const USAGE = 'use: npm run --silent solve -- [--schedules N] [--seconds S] [--seed K] FILE...';

function answer(file: string, { schedules, seconds, seed }: Options): Answer {
  const instance = readInstance(file, readFileSync(file, 'utf8'));
  const problem = toProblem(instance);
  const begun = performance.now();
  const spent = () => (performance.now() - begun) / 1000;
  const outcome = solve(problem, {
    seed,
    ...(schedules === undefined ? {} : { schedules }),
    ...(seconds === undefined ? {} : { shouldStop: () => spent() >= seconds }),
  });
  if (outcome.kind === 'no plan') throw new Error(`no plan: ${JSON.stringify(outcome.wishes)}`);
  const { plan } = outcome;
  return {
    file,
    makespan: plan.ready,
    ...scheduleOf(instance, problem, plan),
    lowerBound: plan.bound.ready,
    proved: plan.proved,
    schedules: plan.schedules,
    seconds: Math.round(spent() * 1000) / 1000,
  };
}

function optionsFrom(values: Record<string, string | boolean | undefined>): Options {
  const number = (name: string): number | undefined => {
    const text = values[name];
    if (text === undefined) return undefined;
    const value = Number(text);
    if (text === '' || !(value >= 0))
      throw new Error(`--${name} must be a number, 0 or more, is "${String(text)}"`);
    return value;
  };
  return { schedules: number('schedules'), seconds: number('seconds'), seed: number('seed') ?? 1 };
}

function main(): number {
  let options: Options;
  let files: string[];
  try {
    const { values, positionals } = parseArgs({
      options: { schedules: { type: 'string' }, seconds: { type: 'string' }, seed: { type: 'string' } },
      allowPositionals: true,
    });
    options = optionsFrom(values);
    files = positionals;
    if (files.length === 0) throw new Error('no file given');
  } catch (error) {
    process.stderr.write(`${(error as Error).message}\n${USAGE}\n`);
    return 2;
  }
  let failed = false;
  for (const file of files) {
    try {
      process.stdout.write(`${JSON.stringify(answer(file, options))}\n`);
    } catch (error) {
      failed = true;
      process.stdout.write(`${JSON.stringify({ file, error: (error as Error).message })}\n`);
    }
  }
  return failed ? 1 : 0;
}

process.exitCode = main();
