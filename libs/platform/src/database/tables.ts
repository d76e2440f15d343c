import {
  type QueryRunner,
  Table,
  TableCheck,
  TableColumn,
  type TableColumnOptions,
  TableForeignKey,
  TableIndex,
  TableUnique,
} from 'typeorm';
import { oneOfExpression } from './columns.js';

/**
 * Pieces of migrations, for both databases. Names of keys, indexes and checks are left to TypeORM, which gives
 * them the same names as it gives those of the entities; so a test can ask whether the two differ.
 */

/** A column with what hangs on it. */
export interface ColumnPart {
  column: TableColumnOptions;
  unique?: boolean;
  indexed?: boolean;
  references?: { table: string; onDelete?: 'CASCADE' | 'SET NULL' };
  check?: string;
}

interface Nullable {
  nullable?: boolean;
}

function part(name: string, type: string, options: Nullable = {}): ColumnPart {
  return { column: { name, type, isNullable: options.nullable ?? false } };
}

/** The text id of the row. */
export function id(name = 'id'): ColumnPart {
  return { column: { name, type: 'text', isPrimary: true } };
}

/** The id of a row of another table, with a foreign key if the table is named. */
export function ref(
  name: string,
  table?: string | null,
  options: Nullable & { onDelete?: 'CASCADE' | 'SET NULL'; indexed?: boolean } = {},
): ColumnPart {
  const made: ColumnPart = { ...part(name, 'text', options), indexed: options.indexed ?? true };
  if (table) made.references = { table, ...(options.onDelete ? { onDelete: options.onDelete } : {}) };
  return made;
}

export function text(name: string, options: Nullable & { unique?: boolean } = {}): ColumnPart {
  return { ...part(name, 'text', options), unique: options.unique ?? false };
}

export function integer(name: string, options: Nullable = {}): ColumnPart {
  return part(name, 'integer', options);
}

export function real(name: string, options: Nullable = {}): ColumnPart {
  return part(name, 'double precision', options);
}

/** Epoch milliseconds. */
export function instant(name: string, options: Nullable = {}): ColumnPart {
  return part(name, 'bigint', options);
}

/** YYYY-MM-DD. */
export function day(name: string, options: Nullable = {}): ColumnPart {
  return part(name, 'text', options);
}

export function flag(name: string, options: Nullable = {}): ColumnPart {
  return part(name, 'boolean', options);
}

export function json(name: string, options: Nullable = {}): ColumnPart {
  return part(name, 'text', options);
}

/** One word of a closed list. */
export function oneOf(name: string, values: readonly string[], options: Nullable = {}): ColumnPart {
  return { ...part(name, 'text', options), check: oneOfExpression(name, values) };
}

export function version(): ColumnPart {
  return integer('version');
}

/** What a table has beside its columns. */
export interface TableExtras {
  /** Sets of columns that are unique together. */
  unique?: string[][];
  /** Sets of columns that are looked up together. */
  indexed?: string[][];
  checks?: string[];
}

/** Creates a table with its keys, indexes and checks. */
export async function createTable(
  runner: QueryRunner,
  name: string,
  parts: ColumnPart[],
  extras: TableExtras = {},
): Promise<void> {
  const table = new Table({ name });
  const indexed = [...(extras.indexed ?? [])];
  for (const piece of parts) {
    table.addColumn(new TableColumn(piece.column));
    const columnNames = [piece.column.name];
    if (piece.unique) table.addUniqueConstraint(new TableUnique({ columnNames }));
    if (piece.check) table.addCheckConstraint(new TableCheck({ expression: piece.check }));
    if (piece.indexed) indexed.push(columnNames);
    if (piece.references) {
      table.addForeignKey(
        new TableForeignKey({
          columnNames,
          referencedTableName: piece.references.table,
          referencedColumnNames: ['id'],
          ...(piece.references.onDelete ? { onDelete: piece.references.onDelete } : {}),
        }),
      );
    }
  }
  for (const columnNames of extras.unique ?? []) table.addUniqueConstraint(new TableUnique({ columnNames }));
  for (const expression of extras.checks ?? []) table.addCheckConstraint(new TableCheck({ expression }));
  await runner.createTable(table);
  for (const columnNames of indexed) await runner.createIndex(table, new TableIndex({ columnNames }));
}
