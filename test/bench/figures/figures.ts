import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import { sideBySide } from './beside.js';
import { quality, skills, speed } from './classical.js';
import type { Figure } from './figure.js';
import { networkPass } from './network-pass.js';
import type { YardFigures } from './yard-process.js';

/** Computing time for each side of the comparison with a general solver. */
const BESIDE = 3;

/**
 * Every figure of the bench, told as soon as it is measured: generated yards and instances and the demo yard only.
 * @returns what is wrong with the plans that were made, empty when all are sound
 */
export async function allFigures(tell: (figure: Figure) => void): Promise<string[]> {
  const faults: string[] = [];
  const fault = (says: string) => faults.push(says);
  yardFigures(tell, fault);
  networkPass().forEach(tell);
  for (const figure of speed()) tell(figure);
  for (const figure of quality(fault)) tell(figure);
  for (const figure of skills(fault)) tell(figure);
  (await sideBySide(BESIDE, fault)).forEach(tell);
  return faults;
}

/** Each yard in a process of its own, so that nothing is compiled or held yet. */
export function yardFigures(tell: (figure: Figure) => void, fault: (says: string) => void): void {
  for (const which of ['demo', 'large']) {
    const script = fileURLToPath(new URL('./yard-process.js', import.meta.url));
    const text = execFileSync(process.execPath, [script, which], { encoding: 'utf8' });
    const run = JSON.parse(text) as YardFigures;
    run.figures.forEach(tell);
    run.faults.forEach(fault);
  }
}
