import { research } from './research/research.js';

/**
 * `npm run --silent bench -- research ...`: the deviation table of a folder of research instances, see
 * `research/research.ts`. Exit code 1 when something measured is wrong, 2 when the command is.
 */
async function main(args: string[]): Promise<number> {
  // Folders alone are the short form.
  return research(args[0] === 'research' ? args.slice(1) : args);
}

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`${(error as Error).message}\n`);
  process.exitCode = 2;
}
