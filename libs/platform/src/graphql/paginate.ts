import type { ObjectLiteral, SelectQueryBuilder } from 'typeorm';
import { badCursor, checkPage, connectionOf, type ConnectionOf, type PageArgs } from './connection.js';

type Key = string | number;

/** Cuts a page out of a list that is in memory, in its order; the id tells where to go on. */
export function pageOf<T extends { id: string }>(list: readonly T[], page: PageArgs): ConnectionOf<T> {
  checkPage(page);
  let from = 0;
  if (page.after) {
    const last = decode(page.after)[0];
    from = list.findIndex((entry) => entry.id === last) + 1;
    if (from === 0) badCursor();
  }
  const rows = list.slice(from, from + page.first);
  return connectionOf(
    rows.map((node) => ({ node, cursor: encode([node.id]) })),
    { totalCount: list.length, hasNextPage: from + rows.length < list.length, hasPreviousPage: from > 0 },
  );
}

/**
 * Reads a page of a query in the order of some columns, of which the last must be unique (the id). Rows that come
 * or go between two pages neither repeat nor hide others.
 * @param by columns of the query's main entity, none nullable
 */
export async function paginate<T extends ObjectLiteral>(
  query: SelectQueryBuilder<T>,
  page: PageArgs,
  by: (keyof T & string)[],
): Promise<ConnectionOf<T>> {
  checkPage(page);
  const totalCount = await query.clone().getCount();
  const rowsFrom = query.clone();
  by.forEach((column, place) => {
    if (place === 0) rowsFrom.orderBy(`${query.alias}.${column}`);
    else rowsFrom.addOrderBy(`${query.alias}.${column}`);
  });
  if (page.after) {
    const last = decode(page.after);
    if (last.length !== by.length) badCursor();
    // (a, b) > (x, y)  <=>  a > x  or  a = x and b > y
    const alternatives = by.map((column, place) =>
      [
        ...by.slice(0, place).map((equal, index) => `${query.alias}.${equal} = :after${index}`),
        `${query.alias}.${column} > :after${place}`,
      ].join(' AND '),
    );
    rowsFrom.andWhere(
      `(${alternatives.map((one) => `(${one})`).join(' OR ')})`,
      Object.fromEntries(last.map((value, place) => [`after${place}`, value])),
    );
  }
  const rows = await rowsFrom.take(page.first + 1).getMany();
  const shown = rows.slice(0, page.first);
  return connectionOf(
    shown.map((node) => ({ node, cursor: encode(by.map((column) => node[column] as Key)) })),
    { totalCount, hasNextPage: rows.length > shown.length, hasPreviousPage: Boolean(page.after) },
  );
}

function encode(keys: Key[]): string {
  return Buffer.from(JSON.stringify(keys)).toString('base64url');
}

function decode(cursor: string): Key[] {
  let keys: unknown;
  try {
    keys = JSON.parse(Buffer.from(cursor, 'base64url').toString());
  } catch {
    badCursor();
  }
  const isKey = (key: unknown): key is Key => typeof key === 'string' || typeof key === 'number';
  return Array.isArray(keys) && keys.every(isKey) ? keys : badCursor();
}
