/** The fields of an edit that were sent: what is undefined was not, null means to take it away. */
export function whatIsGiven<T extends object>(changes: T): Partial<T> {
  const fields = Object.entries(changes as Record<string, unknown>);
  return Object.fromEntries(fields.filter(([, value]) => value !== undefined)) as Partial<T>;
}
