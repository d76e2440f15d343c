import type { Lost } from './called-seats.js';

/** Why somebody did not get the seat that the call had for them, as a sentence. */
export function lostWords(lost: Lost, name: string, title: (taskId: string) => string): string {
  const what = `${name} on “${title(lost.seat.taskId)}”`;
  return lost.kind === 'gate'
    ? `${what}: ${lost.findings.map(({ words }) => words).join(' ')}`
    : `${what}: ${lost.words}`;
}
