import { type CallRules, overrideSentence } from '@ribband/roster';

/** The overrides of a task at a called turnout, in sentences, for those who are asked about. */
export function setAsideWords(
  { overrides, book }: Pick<CallRules, 'overrides' | 'book'>,
  taskId: string,
  isAsked: (volunteerId: string) => boolean = () => true,
): string[] {
  return overrides
    .filter((row) => row.taskId === taskId && isAsked(row.volunteerId))
    .map((row) => `${book.hand(row.volunteerId)?.name ?? 'Somebody'}: ${overrideSentence(row)}`)
    .slice(0, 50);
}
