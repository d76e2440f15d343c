import { In, Like, type EntityManager, type EntityTarget } from 'typeorm';

interface Referred {
  id: string;
  organisationId: string;
  ref: string;
}

const longest = 80;

/** A key for yard documents out of a name: small letters, digits and single hyphens. */
export function slug(name: string): string {
  const plain = name
    .normalize('NFKD')
    .replace(/\p{Mark}/gu, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, longest)
    .replace(/^-+|-+$/g, '');
  return plain === '' ? 'unnamed' : plain;
}

/** A key that no row of this kind has in the organisation yet. */
export async function freeRef(
  manager: EntityManager,
  entity: EntityTarget<Referred>,
  organisationId: string,
  name: string,
): Promise<string> {
  const wanted = slug(name);
  const rows = await manager.find(entity, {
    select: { id: true, ref: true },
    where: [
      { organisationId, ref: wanted },
      { organisationId, ref: Like(`${wanted}-%`) },
    ],
  });
  const taken = new Set(rows.map((row) => row.ref));
  if (!taken.has(wanted)) return wanted;
  let next = 2;
  while (taken.has(`${wanted}-${next}`)) next += 1;
  return `${wanted}-${next}`;
}

/** The ids of an organisation's rows by their document keys. */
export async function idsByRef(
  manager: EntityManager,
  entity: EntityTarget<Referred>,
  organisationId: string,
): Promise<Map<string, string>> {
  const rows = await manager.find(entity, {
    select: { id: true, ref: true },
    where: { organisationId },
  });
  return new Map(rows.map((row) => [row.ref, row.id]));
}

/** The document keys of an organisation's rows by their ids. */
export async function refsById(
  manager: EntityManager,
  entity: EntityTarget<Referred>,
  organisationId: string,
): Promise<Map<string, string>> {
  return new Map([...(await idsByRef(manager, entity, organisationId))].map(([ref, id]) => [id, ref]));
}

/** @throws when the key is unknown: a document is checked whole before any of it is written */
export function known(map: ReadonlyMap<string, string>, key: string): string {
  const found = map.get(key);
  if (found === undefined) throw new Error(`"${key}" is named and is not there`);
  return found;
}

/** Which of the ids are rows of this kind in the organisation. */
export async function knownIds(
  manager: EntityManager,
  entity: EntityTarget<Referred>,
  organisationId: string,
  ids: readonly string[],
): Promise<Set<string>> {
  if (ids.length === 0) return new Set();
  const rows = await manager.find(entity, {
    select: { id: true },
    where: { organisationId, id: In([...new Set(ids)]) },
  });
  return new Set(rows.map((row) => row.id));
}

/** Rows a statement: far below the variables that SQLite takes in one (32,766). */
const rowsAStatement = 500;

/** Inserts many rows, a few hundred a statement. */
export async function insertAll<T extends object>(
  manager: EntityManager,
  entity: EntityTarget<T>,
  rows: T[],
): Promise<void> {
  for (let at = 0; at < rows.length; at += rowsAStatement)
    await manager.insert(entity, rows.slice(at, at + rowsAStatement));
}
