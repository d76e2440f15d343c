import { parseArgs } from 'node:util';
import { numberOf, optionsFrom } from '../answer.js';
import { deviations, deviationTable } from './deviation.js';
import { besideSet } from './beside-set.js';
import { instancesIn } from './known.js';
import { measureAll } from './spread.js';

/**
 * `npm run --silent bench -- research --set DIR [--schedules N | --seconds S] [--seed K] [--each M] [--cores N] [--rows]
 * [--beside S]`
 *
 * Solves every instance of the folder (every M-th with `--each`), verifies each schedule with code that knows nothing
 * of the engine, and prints one line a set: how far from the best published makespans, which stand in the folder's
 * CSV file. Seconds are computing time. `--rows` prints a line of JSON a file first. With `--beside S` the single-mode
 * files go to the engine and to a general constraint solver instead, S seconds each, and a line a file tells both.
 * @returns the exit code: 1 when a schedule breaks a rule or beats a proved bound
 */
export async function research(args: string[]): Promise<number> {
  const text = { type: 'string' as const };
  const { values, positionals } = parseArgs({
    args,
    options: {
      set: { ...text, multiple: true },
      schedules: text,
      seconds: text,
      seed: text,
      each: text,
      cores: text,
      rows: { type: 'boolean' },
      beside: text,
    },
    allowPositionals: true,
  });
  const folders = [...(values.set ?? []), ...positionals];
  if (folders.length === 0) throw new Error('research: no folder given, use --set DIR');
  const files = instancesIn(folders, Math.max(1, numberOf(values, 'each') ?? 1));
  if (files.length === 0) throw new Error('research: no .sm, .dzn or .def file in the folder');
  const seconds = numberOf(values, 'beside');
  if (seconds !== undefined) return besideSet(files, seconds);
  const rows = await measureAll(files, optionsFrom(values), numberOf(values, 'cores') ?? 1);
  if (values.rows) for (const row of rows) process.stdout.write(`${JSON.stringify(row)}\n`);
  process.stdout.write(`${deviationTable(deviations(rows)).join('\n')}\n`);
  for (const { file, faults } of rows) for (const says of faults) process.stderr.write(`${file}: ${says}\n`);
  return rows.some(({ faults }) => faults.length > 0) ? 1 : 0;
}
