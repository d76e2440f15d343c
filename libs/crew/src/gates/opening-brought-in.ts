import { stop } from './found.js';
import type { Finding } from './gate.types.js';

/** What the room that keeps the hull says of openings, as findings: it knows the hull, this module the form. */
export function openingFindings(waits: readonly { message: string; remedy: string | null }[]): Finding[] {
  return waits.map(({ message, remedy }) => stop('opening', message, remedy));
}
