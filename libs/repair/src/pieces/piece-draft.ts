import { isDay, refuse } from '@ribband/platform';
import { wordsOf, wordsOrNull } from '../words.js';
import { isElementKey } from './element-words.js';
import type { Piece } from './piece.entity.js';

/** A piece as it is entered. */
export type PieceDraft = Pick<
  Piece,
  'name' | 'elementKey' | 'place' | 'face' | 'heading' | 'fate' | 'keptAt' | 'cameOffOn'
>;

export const mostWords = { name: 120, place: 200, keptAt: 200, note: 500 } as const;

/** The draft as it is kept. @param today the yard's day @throws RefusalError naming the field */
export function soundDraft(draft: PieceDraft, today: string): PieceDraft {
  const { elementKey, cameOffOn } = draft;
  if (elementKey !== null && !isElementKey(elementKey))
    refuse('BAD_INPUT', `"${elementKey.slice(0, 60)}" names no element of a hull.`, {
      field: 'elementKey',
      remedy: 'Words with hyphens such as strake-9-plank-1-starboard, or none.',
    });
  if (cameOffOn !== null && (!isDay(cameOffOn) || cameOffOn > today))
    refuse('BAD_INPUT', `${cameOffOn} is no day that is past.`, {
      field: 'cameOffOn',
      remedy: `${today} or an earlier day; leave it out while the piece is in place.`,
    });
  return {
    ...draft,
    name: wordsOf(draft.name, 'name', mostWords.name, 'What the piece is'),
    place: wordsOf(draft.place, 'place', mostWords.place, 'Where on the hull it belongs'),
    keptAt: wordsOrNull(draft.keptAt, 'keptAt', mostWords.keptAt, 'Where it is kept'),
  };
}

/** What changed, as a line of the piece's story; null when nothing did. */
export function changeInWords(before: PieceDraft, after: PieceDraft): string | null {
  const lines: string[] = [];
  if (before.name !== after.name) lines.push(`now called ${after.name}`);
  if (before.elementKey !== after.elementKey || before.place !== after.place)
    lines.push(`belongs at ${after.place}`);
  if (before.face !== after.face || before.heading !== after.heading)
    lines.push(`way up: ${wayUpInWords(after) ?? 'not said'}`);
  if (before.cameOffOn !== after.cameOffOn)
    lines.push(after.cameOffOn === null ? 'said to be in place' : `came off on ${after.cameOffOn}`);
  if (before.fate !== after.fate) lines.push(`fate: ${after.fate}`);
  if (before.keptAt !== after.keptAt)
    lines.push(after.keptAt === null ? 'nobody says where it is kept' : `kept at ${after.keptAt}`);
  return lines.length === 0 ? null : `${lines.join('; ')}.`;
}

/** "tag on the outboard face, its arrow forward" */
export function wayUpInWords({ face, heading }: Pick<Piece, 'face' | 'heading'>): string | null {
  const parts = [face && `tag on the ${face} face`, heading && `its arrow ${heading}`].filter(Boolean);
  return parts.length === 0 ? null : parts.join(', ');
}
