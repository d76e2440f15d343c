import { refuse } from '@ribband/platform';

/** A written reason, name or note without the blanks around it. @throws RefusalError BAD_INPUT naming the field */
export function wordsGiven(text: string, field: string, least: number, most: number, remedy: string): string {
  const words = text.trim();
  if (words.length < least || words.length > most)
    refuse('BAD_INPUT', words === '' ? 'Nothing is written there.' : 'That is too short or too long.', {
      field,
      remedy: `${remedy} ${least} to ${most} characters.`,
    });
  return words;
}
