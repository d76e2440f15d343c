import { v7, validate } from 'uuid';

/** A new id such as `task_01932c07-...`: the kind of row, then a UUID version 7, so that ids sort by age. */
export function newId(kind: string): string {
  return `${kind}_${v7()}`;
}

/** The kind of row that an id names, or null when the text is not an id of ours. */
export function idKind(id: string): string | null {
  const cut = id.lastIndexOf('_');
  if (cut < 1 || !validate(id.slice(cut + 1))) return null;
  return id.slice(0, cut);
}
