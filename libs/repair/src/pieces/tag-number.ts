import { TAG_CODES, tagCode } from '@ribband/hull';

/**
 * Numbers go round the whole ring of codes in steps that share no factor with its length (a power of 31), so that
 * tags written one after the other do not look alike, and none comes twice before all were given out.
 */
const step = 611_953;
const start = 104_729;

/** The number of the next tag that nobody has. @param before how many were given out */
export function nextTagNumber(before: number, taken: ReadonlySet<number>): number {
  for (let serial = before; serial < before + TAG_CODES; serial += 1) {
    const number = (start + (serial % TAG_CODES) * step) % TAG_CODES;
    if (!taken.has(number)) return number;
  }
  throw new Error('every tag there is was given out');
}

/** Codes that were keyed wrongly in one or two places, or with two signs swapped: these may be meant, likeliest first. */
export function likelyCodes(keyed: string, numbers: Iterable<number>, most = 5): string[] {
  const plain = keyed.toUpperCase().replaceAll(/[^0-9A-Z]/g, '');
  return [...numbers]
    .map((number) => tagCode(number))
    .map((code) => ({ code, far: distance(plain, code.replace('-', '')) }))
    .filter(({ far }) => far <= 2)
    .sort((a, b) => a.far - b.far || (a.code < b.code ? -1 : 1))
    .slice(0, most)
    .map(({ code }) => code);
}

/** Signs to change, leave out, put in or swap with their neighbour to make one of the other (optimal string alignment). */
function distance(a: string, b: string): number {
  if (Math.abs(a.length - b.length) > 2) return 3;
  const rows: number[][] = [Array.from({ length: b.length + 1 }, (_, j) => j)];
  for (let i = 1; i <= a.length; i += 1) {
    const row = [i];
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1;
      let least = Math.min(at(rows, i - 1, j) + 1, (row[j - 1] ?? 0) + 1, at(rows, i - 1, j - 1) + same);
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, at(rows, i - 2, j - 2) + 1);
      row.push(least);
    }
    rows.push(row);
  }
  return at(rows, a.length, b.length);
}

const at = (rows: number[][], i: number, j: number): number => rows[i]?.[j] ?? 0;
