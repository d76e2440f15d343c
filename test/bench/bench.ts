import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { allFigures } from './figures/figures.js';
import { figureMarkdown, figureTable, type Figure } from './figures/figure.js';
import { growth } from './growth/growth.js';
import { research } from './research/research.js';
import { madeOn, putBetween } from './table/between.js';
import { table } from './table/table.js';

/**
 * `npm run --silent bench` measures the engine on generated yards and instances and prints a table; with `--json` a
 * line of JSON a figure, and with `--readme` the README's table is written anew. `bench -- research ...` is the deviation table of a folder of research instances, see
 * `research/research.ts`; `growth` and `table` write what the READMEs show. Exit code 1 when something measured is wrong, 2 when the command is.
 */
async function main([word = '', ...rest]: string[]): Promise<number> {
  if (word === '' || word.startsWith('--')) return figures(parsed([word, ...rest]));
  if (word === 'research') return research(rest);
  if (word === 'growth') return growth(rest);
  if (word === 'table') return table(rest);
  throw new Error(`there is no "${word}"; use nothing, --json, research, growth or table`);
}

interface Wish {
  json: boolean;
  readme: boolean;
}

function parsed(args: string[]): Wish {
  const options = { json: { type: 'boolean' }, readme: { type: 'boolean' } } as const;
  const { json = false, readme = false } = parseArgs({
    args: args.filter((one) => one !== ''),
    options,
  }).values;
  return { json, readme };
}

async function figures({ json, readme }: Wish): Promise<number> {
  const list: Figure[] = [];
  const faults = await allFigures((figure) => {
    list.push(figure);
    if (json) process.stdout.write(`${JSON.stringify(figure)}\n`);
  });
  if (!json) process.stdout.write(`${figureTable(list).join('\n')}\n`);
  if (readme) {
    const file = fileURLToPath(new URL('../../../../README.md', import.meta.url));
    await putBetween(file, 'figures', `${madeOn()}\n\n${figureMarkdown(list)}`);
  }
  for (const says of faults) process.stderr.write(`${says}\n`);
  return faults.length > 0 ? 1 : 0;
}

try {
  process.exitCode = await main(process.argv.slice(2));
} catch (error) {
  process.stderr.write(`${(error as Error).message}\n`);
  process.exitCode = 2;
}
