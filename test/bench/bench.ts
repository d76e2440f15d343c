import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { parseArgs } from 'node:util';
import { network } from '@ribband/engine';
import { answer, optionsFrom, type Answer } from './answer.js';
import { readInstance } from './read-instance.js';
import { toProblem } from './to-problem.js';
import { verifySchedule } from './verify-schedule.js';

/**
 * `npm run --silent bench -- [--schedules N] [--seconds S] [--seed K] [--each N] FOLDER...`
 *
 * Solves every instance of the folders (every N-th with `--each`), verifies each schedule with code that knows nothing
 * of the engine, and prints one line a set: how far from the best published makespans, which stand in the folder's CSV
 * file (file, lower bound, makespan). Exit code 1 when a schedule breaks a rule or beats a proved bound.
 */
interface Row extends Answer {
  set: string;
  known: { bound: number; makespan: number } | undefined;
  path: number;
}

const USAGE = 'use: npm run --silent bench -- [--schedules N] [--seconds S] [--seed K] [--each N] FOLDER...';
let wrong = 0;

function complain(file: string, says: string): void {
  wrong++;
  process.stderr.write(`${file}: ${says}\n`);
}

/** Best published values by file name: the columns after the name are a lower bound and a makespan. */
function knownIn(folder: string): Map<string, { bound: number; makespan: number }> {
  const known = new Map<string, { bound: number; makespan: number }>();
  for (const name of readdirSync(folder).filter((one) => one.endsWith('.csv'))) {
    for (const line of readFileSync(join(folder, name), 'utf8').trim().split(/\r?\n/).slice(1)) {
      const [file, bound, makespan] = line.split(',');
      known.set(file, { bound: Number(bound), makespan: Number(makespan) });
    }
  }
  return known;
}

function setOf(folder: string, name: string): string {
  const size = /^(j30|j60|j90|j120)/.exec(name)?.[1];
  return size ?? basename(folder);
}

function solved(folder: string, each: number, options: ReturnType<typeof optionsFrom>): Row[] {
  const known = knownIn(folder);
  const names = readdirSync(folder).filter((name) => /\.(sm|dzn|def)$/.test(name));
  return names
    .filter((_, k) => k % each === 0)
    .map((name) => {
      const file = join(folder, name);
      const instance = readInstance(name, readFileSync(file, 'utf8'));
      const found = answer(file, options);
      for (const says of verifySchedule(instance, found)) complain(file, says);
      if (found.lowerBound > found.makespan)
        complain(file, `bound ${found.lowerBound} above makespan ${found.makespan}`);
      const best = known.get(name);
      if (best && found.lowerBound > best.makespan)
        complain(file, `bound ${found.lowerBound} above the best known`);
      if (best && found.makespan < best.bound)
        complain(file, `makespan ${found.makespan} below the known bound`);
      const net = network(toProblem(instance));
      return {
        ...found,
        set: setOf(folder, name),
        known: best,
        path: net.kind === 'network' ? net.ready : 0,
      };
    });
}

function percent(values: number[]): string {
  if (values.length === 0) return '-';
  return (100 * (values.reduce((sum, value) => sum + value, 0) / values.length)).toFixed(2);
}

function main(): number {
  let folders: string[];
  let each: number;
  let options: ReturnType<typeof optionsFrom>;
  try {
    const text = { type: 'string' as const };
    const { values, positionals } = parseArgs({
      options: { schedules: text, seconds: text, seed: text, each: text },
      allowPositionals: true,
    });
    options = optionsFrom(values);
    each = Math.max(1, Number(values.each ?? 1));
    folders = positionals;
    if (folders.length === 0 || Number.isNaN(each)) throw new Error('no folder given');
  } catch (error) {
    process.stderr.write(`${(error as Error).message}\n${USAGE}\n`);
    return 2;
  }
  const rows = folders.flatMap((folder) => solved(folder, each, options));
  process.stdout.write(
    'set       files  % over best  % over path  best met  proved  bound gap %  schedules/s  s/file\n',
  );
  for (const set of new Set(rows.map((row) => row.set))) {
    const own = rows.filter((row) => row.set === set);
    const told = own.flatMap(({ known, makespan }) => (known ? [{ best: known.makespan, makespan }] : []));
    const seconds = own.reduce((sum, row) => sum + row.seconds, 0);
    const schedules = own.reduce((sum, row) => sum + row.schedules, 0);
    const columns = [
      set.padEnd(9),
      String(own.length).padStart(6),
      percent(told.map(({ best, makespan }) => makespan / best - 1)).padStart(12),
      percent(own.flatMap(({ makespan, path }) => (path > 0 ? [makespan / path - 1] : []))).padStart(12),
      percent(told.map(({ best, makespan }) => (makespan <= best ? 1 : 0))).padStart(9),
      percent(own.map((row) => (row.proved ? 1 : 0))).padStart(7),
      percent(own.map(({ makespan, lowerBound }) => 1 - lowerBound / Math.max(1, makespan))).padStart(12),
      Math.round(schedules / Math.max(0.001, seconds))
        .toString()
        .padStart(12),
      (seconds / own.length).toFixed(2).padStart(7),
    ];
    process.stdout.write(`${columns.join(' ')}\n`);
  }
  return wrong > 0 ? 1 : 0;
}

process.exitCode = main();
