import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { cpuSeconds } from '../clock.js';
import { measure, plot, table } from './report.js';
import { trialsOf, type Trial } from './trial.js';

/**
 * `npm run calibrate -- [--yards N] [--seed K] [--dry]`
 *
 * Lives through small yards whose truth is known, forecasts each at three moments from what its record holds by then,
 * and writes how often the dates held, with a plot, into the engine's README (not with `--dry`). Yards that have no
 * plan are left out. The model was tuned on the yards of seeds from 5,000,000 on; the figures are of others.
 */
const README = new URL('../../../../../libs/engine/README.md', import.meta.url);
const PLOT = new URL('../../../../../libs/engine/calibration.svg', import.meta.url);
const BEGIN = '<!-- calibrated: written by npm run calibrate -->';
const END = '<!-- end of calibrated -->';
const FUTURES = 250;

const { values } = parseArgs({
  options: { yards: { type: 'string' }, seed: { type: 'string' }, dry: { type: 'boolean' } },
});
const wanted = Number(values.yards ?? 2000);
const first = Number(values.seed ?? 1);
if (!Number.isInteger(wanted) || wanted < 1 || !Number.isInteger(first)) {
  process.stderr.write('use: npm run calibrate -- [--yards N] [--seed K] [--dry]\n');
  process.exit(2);
}
const trials: Trial[] = [];
let yards = 0;
let seed = first;
for (; yards < wanted; seed++) {
  const some = trialsOf(seed, FUTURES);
  if (some.length === 0) continue;
  trials.push(...some);
  if (++yards % 200 === 0) process.stderr.write(`${yards} yards\n`);
}
const measured = measure(trials);
const words = `${yards.toLocaleString('en')} yards (seeds ${first} to ${seed - 1}), ${FUTURES} futures a forecast, ${Math.round(cpuSeconds())} s of one core. ± is one standard error.`;
process.stdout.write(`${table(measured)}\n${words}\n`);
if (!values.dry) {
  const old = readFileSync(README, 'utf8');
  const from = old.indexOf(BEGIN);
  const to = old.indexOf(END);
  if (from < 0 || to < from) throw new Error('the engine’s README has no place for the figures');
  const block = `${BEGIN}\n\n${words}\n\n${table(measured)}\n\n![How often the dates held](calibration.svg)\n\n${END}`;
  writeFileSync(README, old.slice(0, from) + block + old.slice(to + END.length));
  writeFileSync(PLOT, plot(trials));
}
