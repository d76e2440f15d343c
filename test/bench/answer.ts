import { readFileSync } from 'node:fs';
import { solve } from '@ribband/engine';
import { readInstance } from './read-instance.js';
import { scheduleOf, toProblem, type Schedule } from './to-problem.js';

/** What is printed for a file; `proved` when the makespan equals the lower bound. */
export interface Answer extends Schedule {
  file: string;
  makespan: number;
  lowerBound: number;
  proved: boolean;
  schedules: number;
  seconds: number;
}

export interface Options {
  schedules: number | undefined;
  seconds: number | undefined;
  seed: number;
}

/** Plans each file and prints its line. True when one of them could not be read or has no plan. */
export function answers(files: string[], options: Options, print: (line: string) => void): boolean {
  let failed = false;
  for (const file of files) {
    try {
      print(JSON.stringify(answer(file, options)));
    } catch (error) {
      failed = true;
      print(JSON.stringify({ file, error: (error as Error).message }));
    }
  }
  return failed;
}

/** @throws BadFile, or the file system's own error, where the file can't be read */
export function answer(file: string, { schedules, seconds, seed }: Options): Answer {
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

/** Options as they are written on the command line. @throws Error that names the option */
export function optionsFrom(values: Record<string, string | boolean | undefined>): Options {
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
