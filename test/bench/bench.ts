import { allFigures } from './figures/figures.js';
import { figureTable, type Figure } from './figures/figure.js';
import { research } from './research/research.js';

/**
 * `npm run --silent bench` measures the engine on generated yards and instances and prints a table; with `--json` a
 * line of JSON a figure. `bench -- research ...` is the deviation table of a folder of research instances, see
 * `research/research.ts`. Exit code 1 when something measured is wrong, 2 when the command is.
 */
async function main([word = '', ...rest]: string[]): Promise<number> {
  if (word === '' || word === '--json') return figures(word === '--json');
  if (word === 'research') return research(rest);
  throw new Error(`there is no "${word}"; use: bench [--json], bench research --set DIR`);
}

async function figures(asJson: boolean): Promise<number> {
  const list: Figure[] = [];
  const faults = await allFigures((figure) => {
    list.push(figure);
    if (asJson) process.stdout.write(`${JSON.stringify(figure)}\n`);
  });
  if (!asJson) process.stdout.write(`${figureTable(list).join('\n')}\n`);
  for (const says of faults) process.stderr.write(`${says}\n`);
  return faults.length > 0 ? 1 : 0;
}

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`${(error as Error).message}\n`);
  process.exitCode = 2;
}
