import { Check, Column, ForeignKey, Index, PrimaryColumn, type ValueTransformer } from 'typeorm';

/**
 * Column decorators that mean the same on SQLite and PostgreSQL. Each has a twin in tables.ts for migrations.
 */

interface Nullable {
  nullable?: boolean;
}

// PostgreSQL gives a bigint as text, so that nothing is lost; epoch milliseconds fit a number until the year 287396.
const wholeNumber: ValueTransformer = {
  to: (value: unknown) => value,
  from: (value: unknown) => (typeof value === 'string' ? Number(value) : value),
};

const jsonText: ValueTransformer = {
  to: (value: unknown) => (value === null || value === undefined ? value : JSON.stringify(value)),
  from: (value: unknown) => (typeof value === 'string' ? (JSON.parse(value) as unknown) : value),
};

function joined(...decorators: PropertyDecorator[]): PropertyDecorator {
  return (target, key) => {
    for (const decorate of decorators) decorate(target, key);
  };
}

/** The row's own id (see `newId`). */
export function IdColumn(): PropertyDecorator {
  return PrimaryColumn('text');
}

/**
 * The id of a row of another table, or of one that this room cannot name (leave the target out).
 * @param options `onDelete` is NO ACTION unless given; `indexed` is true unless given
 */
export function RefColumn(
  target?: (() => object) | null,
  options: Nullable & { onDelete?: 'CASCADE' | 'SET NULL'; indexed?: boolean } = {},
): PropertyDecorator {
  const decorators = [Column('text', { nullable: options.nullable ?? false })];
  if (options.indexed ?? true) decorators.push(Index());
  if (target) {
    decorators.push(
      ForeignKey(target as () => new () => object, options.onDelete ? { onDelete: options.onDelete } : {}),
    );
  }
  return joined(...decorators);
}

export function TextColumn(options: Nullable & { unique?: boolean } = {}): PropertyDecorator {
  return Column('text', { nullable: options.nullable ?? false, unique: options.unique ?? false });
}

export function IntegerColumn(options: Nullable = {}): PropertyDecorator {
  return Column('integer', { nullable: options.nullable ?? false });
}

/** A number with a fraction (eight bytes on both databases). */
export function RealColumn(options: Nullable = {}): PropertyDecorator {
  return Column('double precision', { nullable: options.nullable ?? false });
}

/** An instant in epoch milliseconds. */
export function InstantColumn(options: Nullable = {}): PropertyDecorator {
  return Column('bigint', { nullable: options.nullable ?? false, transformer: wholeNumber });
}

/** A day YYYY-MM-DD. */
export function DayColumn(options: Nullable = {}): PropertyDecorator {
  return Column('text', { nullable: options.nullable ?? false });
}

/** A yes or no. It has no default in the database: the class gives one. */
export function FlagColumn(options: Nullable = {}): PropertyDecorator {
  return Column('boolean', { nullable: options.nullable ?? false });
}

/** Any JSON value, kept as text. */
export function JsonColumn(options: Nullable = {}): PropertyDecorator {
  return Column('text', { nullable: options.nullable ?? false, transformer: jsonText });
}

/** One word of a closed list, which the database checks as well. */
export function OneOfColumn(values: readonly string[], options: Nullable = {}): PropertyDecorator {
  return (target, key) => {
    Column('text', { nullable: options.nullable ?? false })(target, key);
    Check(oneOfExpression(String(key), values))(target, key);
  };
}

/** The check behind `OneOfColumn`; the migration must say it in the same words. */
export function oneOfExpression(name: string, values: readonly string[]): string {
  return `"${name}" IN (${values.map((value) => `'${value}'`).join(', ')})`;
}

/** Counts the edits of a row: starts at 1 and is raised by the use case (`raiseVersion`). */
export function VersionColumn(): PropertyDecorator {
  return Column('integer');
}
