import { need, needWhole } from '../refusal.js';

/**
 * Plain code of a tag, to be read aloud and keyed with wet hands: six characters in two groups, K7M-4TX.
 * 31 characters, no two of them alike to the eye (no 0 or O, 1 or I or L). Four carry the number, two check it: with
 * c_1..c_6 their values, the sums of c_i and of i c_i are both 0 modulo 31. One wrong character gives sums e and i e,
 * which tell which one and what it was; two neighbours swapped leave the first sum 0 and the second not.
 */
const CHARACTERS = '23456789ABCDEFGHJKMNPQRSTUVWXYZ';
const PRIME = CHARACTERS.length;
const LENGTH = 6;

/** As many tags as there are codes. */
export const TAG_CODES = PRIME ** (LENGTH - 2);

export function tagCode(number: number): string {
  needWhole(number, 'number', 0, TAG_CODES - 1);
  const values: number[] = [];
  for (let place = 0, left = number; place < LENGTH - 2; place += 1) {
    values.push(left % PRIME);
    left = Math.floor(left / PRIME);
  }
  // Solve for the last two: x + y = -a and 5x + 6y = -b, so y = -b + 5a and x = -a - y.
  const a = values.reduce((sum, value) => sum + value, 0);
  const b = values.reduce((sum, value, index) => sum + (index + 1) * value, 0);
  const y = modulo(5 * a - b);
  const x = modulo(-a - y);
  return written([...values, x, y]);
}

export type TagReading =
  | { kind: 'right'; number: number; code: string }
  /** One character was wrong; this is the code it was. Ask "is it this one?" before using it. */
  | { kind: 'mended'; number: number; code: string; wrongAt: number }
  | { kind: 'unreadable'; why: string };

/** Reads a code as keyed or said: case, blanks and hyphens do not matter. */
export function readTag(keyed: string): TagReading {
  const plain = keyed.toUpperCase().replaceAll(/[\s-]/g, '');
  if (plain.length !== LENGTH)
    return { kind: 'unreadable', why: `a code has ${LENGTH} characters, this has ${plain.length}` };
  const values = [...plain].map((character) => CHARACTERS.indexOf(character));
  const strange = values.filter((value) => value < 0).length;
  if (strange > 1) return { kind: 'unreadable', why: `codes use only ${CHARACTERS}` };
  // A character that no code has stands for any value: it is the wrong one.
  const read = values.map((value) => Math.max(value, 0));
  const first = modulo(read.reduce((sum, value) => sum + value, 0));
  const second = modulo(read.reduce((sum, value, index) => sum + (index + 1) * value, 0));
  if (first === 0 && second === 0 && strange === 0)
    return { kind: 'right', number: numberOf(read), code: written(read) };
  const at = strange === 1 ? values.indexOf(-1) : modulo(second * inverse(first)) - 1;
  if ((first === 0 && strange === 0) || at < 0 || at >= LENGTH || modulo(first * (at + 1)) !== second)
    return { kind: 'unreadable', why: 'more than one character is wrong, or two are swapped' };
  const mended = read.map((value, index) => (index === at ? modulo(value - first) : value));
  return { kind: 'mended', number: numberOf(mended), code: written(mended), wrongAt: at + 1 };
}

const modulo = (value: number): number => ((value % PRIME) + PRIME) % PRIME;

/** x with value x = 1 modulo the prime; 0 has none and gives 0. */
function inverse(value: number): number {
  let power = 1;
  for (let step = 0; step < PRIME - 2; step += 1) power = modulo(power * value);
  return power;
}

const written = (values: number[]): string => {
  const characters = values.map((value) => CHARACTERS[value]).join('');
  return `${characters.slice(0, 3)}-${characters.slice(3)}`;
};

function numberOf(values: number[]): number {
  const data = values.slice(0, LENGTH - 2);
  const number = data.reduceRight((sum, value) => sum * PRIME + value, 0);
  need(number < TAG_CODES, 'code', 'beyond the last code', `below ${TAG_CODES}`);
  return number;
}
