import type { RequestContext } from '@ribband/access';
import DataLoader from 'dataloader';

/**
 * The DataLoader of this request that goes by a name, made on first use. A request that asks for the skills of fifty
 * people asks the database once.
 */
export function loader<K, V>(
  context: Pick<RequestContext, 'loaders'>,
  name: string,
  batch: (keys: readonly K[]) => Promise<V[]>,
): DataLoader<K, V> {
  const known = context.loaders.get(name) as DataLoader<K, V> | undefined;
  if (known) return known;
  const made = new DataLoader<K, V>(batch);
  context.loaders.set(name, made);
  return made;
}

/** Rows in the order of the ids asked for. @throws when one is missing: ids come from rows that hold them */
export function inOrderOf<T extends { id: string }>(ids: readonly string[], rows: readonly T[]): T[] {
  const byId = new Map(rows.map((row) => [row.id, row]));
  return ids.map((id) => {
    const row = byId.get(id);
    if (!row) throw new Error(`${id} is named by another row and is not there`);
    return row;
  });
}

/** Rows gathered by the key that each belongs to, one list a key, in the order of the rows. */
export function groupedBy<T>(keys: readonly string[], rows: readonly T[], keyOf: (row: T) => string): T[][] {
  const groups = new Map<string, T[]>(keys.map((key) => [key, []]));
  for (const row of rows) groups.get(keyOf(row))?.push(row);
  return keys.map((key) => groups.get(key) ?? []);
}
