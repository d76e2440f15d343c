import { parseArgs } from 'node:util';
import { answers, optionsFrom, type Options } from './answer.js';

/**
 * `npm run --silent solve -- [--schedules N] [--seconds S] [--seed K] FILE...`
 *
 * Plans classical instances with the engine that plans the yard and prints one line of JSON a file. A file that can't
 * be read gives `{"file","error"}`, and exit code 1 at the end; a wrong option gives 2.
 */
const USAGE = 'use: npm run --silent solve -- [--schedules N] [--seconds S] [--seed K] FILE...';

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
  const failed = answers(files, options, (line) => process.stdout.write(`${line}\n`));
  return failed ? 1 : 0;
}

process.exitCode = main();
