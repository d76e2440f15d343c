import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { numberOf } from '../answer.js';
import { madeOn, markdown, putBetween } from './between.js';
import { ROWS } from './goals.js';
import { measureForTable } from './measured.js';

/**
 * `npm run bench -- table --set DIR [--set DIR] [--seed K] [--each M] [--seconds S] [--cores N]`
 *
 * Measures every row of the engine's table, published sets from the folders given, and writes it into the engine's
 * README. Without limits every file is solved in full: about half an hour. `--each M` takes every M-th file,
 * `--seconds S` no more than S a file.
 */
export async function table(args: string[]): Promise<number> {
  const text = { type: 'string' as const };
  const { values } = parseArgs({
    args,
    options: { set: { ...text, multiple: true }, seed: text, each: text, seconds: text, cores: text },
  });
  if (!values.set) throw new Error('table: no folder given, use --set DIR');
  const limits = {
    seed: numberOf(values, 'seed') ?? 1,
    each: Math.max(1, numberOf(values, 'each') ?? 1),
    cores: numberOf(values, 'cores') ?? 1,
    seconds: numberOf(values, 'seconds') ?? Infinity,
  };
  const all = await measureForTable(values.set, limits);
  const sample = limits.each === 1 ? 'all files given' : `every ${limits.each}th of the files given`;
  const body = markdown(
    ['what', 'best published', 'goal', 'measured', 'on'],
    ROWS.map(({ what, published, goal, measured, on }) => [
      what,
      published,
      goal,
      measured(all) ?? 'not measured',
      on(all),
    ]),
  );
  const file = fileURLToPath(new URL('../../../../../libs/engine/README.md', import.meta.url));
  await putBetween(file, 'measured', `${madeOn()} Seed ${limits.seed}, ${sample}.\n\n${body}`);
  for (const says of all.faults) process.stderr.write(`${says}\n`);
  return all.faults.length > 0 ? 1 : 0;
}
