import { refuse } from '@ribband/platform';

/**
 * What somebody wrote, without the blanks around it.
 * @throws RefusalError when it is empty, too long, or has signs in it that nobody can see
 */
export function wordsOf(value: string, field: string, most: number, what: string): string {
  const words = value.trim();
  // eslint-disable-next-line no-control-regex -- those are the signs meant
  if (words === '' || words.length > most || /[\u0000-\u0008\u000b\u000c\u000e-\u001f]/.test(words))
    refuse('BAD_INPUT', `${what} is missing, too long, or has signs in it that are no letters.`, {
      field,
      remedy: `Say it in 1 to ${most} characters.`,
    });
  return words;
}

/** The same where nothing need be said: nothing but blanks is null. */
export const wordsOrNull = (
  value: string | null | undefined,
  field: string,
  most: number,
  what: string,
): string | null => ((value ?? '').trim() === '' ? null : wordsOf(value ?? '', field, most, what));

/** A written reason, name or note of some length at least. @throws RefusalError BAD_INPUT naming the field */
export function wordsGiven(text: string, field: string, least: number, most: number, remedy: string): string {
  const words = text.trim();
  if (words.length >= least) return wordsOf(words, field, most, 'What is written there');
  return refuse('BAD_INPUT', words === '' ? 'Nothing is written there.' : 'That is too short.', {
    field,
    remedy: `${remedy} ${least} to ${most} characters.`,
  });
}

/** With its first letter large. */
export const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);
