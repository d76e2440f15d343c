import { readFileSync } from 'node:fs';
import { basename, dirname } from 'node:path';
import { network } from '@ribband/engine';
import { verifyPlan } from '../../engine/verify-plan.js';
import { solved, type Options } from '../answer.js';
import { cpuSeconds, seldom } from '../clock.js';
import { readInstance } from '../read-instance.js';
import { verifySchedule } from '../verify-schedule.js';
import type { Found, Known } from './known.js';

/** What came out for one instance file; times are computing time. */
export interface Row {
  file: string;
  set: string;
  known: Known | null;
  /** Length of the critical path. */
  path: number;
  makespan: number;
  lowerBound: number;
  proved: boolean;
  schedules: number;
  seconds: number;
  /** What is wrong with it; empty when sound. */
  faults: string[];
}

/** Solves one file and has the answer checked by code that knows nothing of the engine. */
export function measure({ file, name, known }: Found, options: Options): Row {
  const instance = readInstance(name, readFileSync(file, 'utf8'));
  const { problem, plan, answer } = solved(file, instance, options, cpuSeconds, seldom(cpuSeconds));
  const { makespan, lowerBound, proved, schedules, seconds } = answer;
  const faults = [
    ...verifySchedule(instance, answer),
    ...verifyPlan(problem, plan).map(({ rule, says }) => `${rule}: ${says}`),
  ];
  if (lowerBound > makespan) faults.push(`bound ${lowerBound} above makespan ${makespan}`);
  if (known && lowerBound > known.makespan) faults.push(`bound ${lowerBound} above the best known`);
  if (known && makespan < known.bound) faults.push(`makespan ${makespan} below the known bound`);
  const net = network(problem);
  const path = net.kind === 'network' ? net.ready : 0;
  return { file, set: setOf(file), known, path, makespan, lowerBound, proved, schedules, seconds, faults };
}

/** The published set that a file belongs to: by its name's start or ending, or the folder's. */
function setOf(file: string): string {
  if (file.endsWith('.dzn')) return 'mspsp';
  if (file.endsWith('.def')) return 'imopse';
  return /^(j30|j60|j90|j120)/.exec(basename(file))?.[1] ?? basename(dirname(file));
}
