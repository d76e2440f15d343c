import { qrCode, TAG_CODES, tagCode } from '@ribband/hull';

/**
 * A short code for each of a crew, to be read from a badge or keyed: the check characters of the tags. It follows from
 * the id, so that nothing is kept; where two would have the same, the one who joined later has the next free one.
 * @param ids all ids of the crew; they sort by age
 */
export function badgeCodes(ids: readonly string[]): Map<string, string> {
  const taken = new Set<number>();
  const codes = new Map<string, string>();
  for (const id of [...ids].sort()) {
    let number = numberOf(id);
    while (taken.has(number)) number = (number + 1) % TAG_CODES;
    taken.add(number);
    codes.set(id, tagCode(number));
  }
  return codes;
}

/** FNV-1a over 32 bits (Fowler, Noll and Vo; public domain), folded into the codes that there are. */
function numberOf(id: string): number {
  let hash = 0x811c9dc5;
  for (const character of id) hash = Math.imul(hash ^ character.charCodeAt(0), 0x01000193) >>> 0;
  return hash % TAG_CODES;
}

/** The square of a badge: rows of 1 and 0. */
export const badgeSquare = (code: string): string[] =>
  qrCode(code).map((row) => row.map((dark) => (dark ? '1' : '0')).join(''));
