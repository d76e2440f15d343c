import type { PieceFate } from '../gql/graphql.js';

export const fateWords: Record<PieceFate, string> = {
  NOT_SAID: 'nobody has said yet what becomes of it',
  REFIT: 'goes back',
  PATTERN: 'pattern for the new one',
  ARCHIVE: 'kept as a record',
  SCRAP: 'let go',
};

export const faces = {
  OUTBOARD: 'outboard',
  INBOARD: 'inboard',
  FORWARD: 'forward',
  AFT: 'aft',
  UPPER: 'upper',
  LOWER: 'lower',
} as const;

export const headings = {
  FORWARD: 'forward, to the stem',
  AFT: 'aft, to the stern',
  UP: 'up, to the deck',
  DOWN: 'down, to the keel',
} as const;

/** Every word sought stands somewhere in the piece's code, name, place, fate or where it is kept. */
export function answersTo(
  piece: { code: string; name: string; place: string; fate: PieceFate; keptAt?: string | null },
  sought: string,
): boolean {
  const text = [piece.code, piece.code.replace('-', ''), piece.name, piece.place, piece.keptAt ?? '']
    .concat(fateWords[piece.fate])
    .join(' ')
    .toLowerCase();
  return sought
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
