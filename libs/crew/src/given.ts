import { refuse } from '@ribband/platform';

/** The fields of an edit that were sent: what is undefined was not, null means to take it away. */
export function whatIsGiven<T extends object>(changes: T): Partial<T> {
  const fields = Object.entries(changes as Record<string, unknown>);
  return Object.fromEntries(fields.filter(([, value]) => value !== undefined)) as Partial<T>;
}

/** Refuses an edit that would take away what there always is. @throws RefusalError BAD_INPUT naming the first field */
export function refuseTakenAway<T extends object>(changes: T, ...fields: (keyof T & string)[]): void {
  const taken = fields.find((field) => changes[field] === null);
  if (taken === undefined) return;
  refuse('BAD_INPUT', `The ${taken} can be changed but not taken away.`, {
    field: taken,
    remedy: 'Send a value, or leave the field out so that it stays.',
  });
}
