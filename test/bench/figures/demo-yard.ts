import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Beliefs, Problem } from '@ribband/engine';

/** The demo yard's problem and what is believed about it, made from its document by the planning room in a process of its own. */
export function demoYard(): { problem: Problem; beliefs: Beliefs } {
  const script = fileURLToPath(new URL('../../../demo-problem.mjs', import.meta.url));
  const text = execFileSync(process.execPath, [script], { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });
  return JSON.parse(text) as { problem: Problem; beliefs: Beliefs };
}
