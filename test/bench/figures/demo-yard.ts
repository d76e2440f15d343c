import { execFileSync } from 'node:child_process';
import { fileURLToPath } from 'node:url';
import type { Problem } from '@ribband/engine';

/** The demo yard's problem, made from its document by the planning room in a process of its own. */
export function demoYard(): Problem {
  const script = fileURLToPath(new URL('../../../demo-problem.mjs', import.meta.url));
  const text = execFileSync(process.execPath, [script], { encoding: 'utf8', maxBuffer: 64 * 1024 * 1024 });
  return JSON.parse(text) as Problem;
}
