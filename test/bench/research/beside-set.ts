import { readFileSync } from 'node:fs';
import { compared } from '../figures/beside.js';
import { figureTable } from '../figures/figure.js';
import { readSm } from '../read-sm.js';
import { besideClassical, type Beside } from '../rival/beside.js';
import { Solver } from '../rival/solver.js';
import type { Found } from './known.js';

/** Both sides on every single-mode file: a line of JSON a file, then a table. @returns 1 when an answer is wrong */
export async function besideSet(files: Found[], seconds: number): Promise<number> {
  const solver = new Solver();
  const runs: Beside[] = [];
  const faults: string[] = [];
  try {
    for (const { file, name } of files.filter((one) => one.name.endsWith('.sm'))) {
      const run = await besideClassical(solver, name, readSm(readFileSync(file, 'utf8')), seconds);
      process.stdout.write(`${JSON.stringify(run)}\n`);
      runs.push(run);
    }
  } finally {
    await solver.close();
  }
  const figures = compared(`${runs.length} files, ${seconds} s each`, runs, (says) => faults.push(says));
  process.stdout.write(`${figureTable(figures).join('\n')}\n`);
  for (const says of faults) process.stderr.write(`${says}\n`);
  return faults.length > 0 ? 1 : 0;
}
