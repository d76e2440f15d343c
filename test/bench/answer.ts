import { readFileSync } from 'node:fs';
import { solve, type Plan, type Problem } from '@ribband/engine';
import { wallSeconds, type Clock } from './clock.js';
import type { Instance } from './instance.js';
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
export function answer(file: string, options: Options): Answer {
  return solved(file, readInstance(file, readFileSync(file, 'utf8')), options, wallSeconds).answer;
}

/** An answer with what it was read from, for those who check it. */
export interface Solved {
  problem: Problem;
  plan: Plan;
  answer: Answer;
}

/**
 * @param look what the time that is over is asked of, where `clock` is too dear to be asked at each pass
 * @throws Error where the instance has no plan
 */
export function solved(
  file: string,
  instance: Instance,
  options: Options,
  clock: Clock,
  look = clock,
): Solved {
  const { schedules, seconds, seed } = options;
  const problem = toProblem(instance);
  const begun = clock();
  const outcome = solve(problem, {
    seed,
    ...(schedules === undefined ? {} : { schedules }),
    ...(seconds === undefined ? {} : { shouldStop: () => look() - begun >= seconds }),
  });
  if (outcome.kind === 'no plan') throw new Error(`no plan: ${JSON.stringify(outcome.wishes)}`);
  const { plan } = outcome;
  const answer = {
    file,
    makespan: plan.ready,
    ...scheduleOf(instance, problem, plan),
    lowerBound: plan.bound.ready,
    proved: plan.proved,
    schedules: plan.schedules,
    seconds: Math.round((clock() - begun) * 1000) / 1000,
  };
  return { problem, plan, answer };
}

/** Options as they are written on the command line. @throws Error that names the option */
export function optionsFrom(values: Record<string, string | boolean | string[] | undefined>): Options {
  return {
    schedules: numberOf(values, 'schedules'),
    seconds: numberOf(values, 'seconds'),
    seed: numberOf(values, 'seed') ?? 1,
  };
}

/** A number, 0 or more, of the command line; undefined where it is not given. @throws Error that names the option */
export function numberOf(
  values: Record<string, string | boolean | string[] | undefined>,
  name: string,
): number | undefined {
  const given = values[name];
  if (given === undefined) return undefined;
  const text = String(given);
  const value = Number(text);
  if (text.trim() === '' || !(value >= 0))
    throw new Error(`--${name} must be a number, 0 or more, is "${text}"`);
  return value;
}
