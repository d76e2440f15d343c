import type { DataSource, EntityManager } from 'typeorm';

/** An entity or a migration: TypeORM asks for no more than a class. */
export type SchemaClass = new (...args: never[]) => object;

/** Everything that the rooms keep: their entities and their migrations, put together by the app. */
export interface Schema {
  entities: SchemaClass[];
  migrations: SchemaClass[];
}

/** What the two kinds of database have in common. */
export interface Store {
  readonly kind: 'sqlite' | 'postgres';
  /** Sees what is committed; cannot write. */
  readonly read: EntityManager;
  /** For migrations and health only. */
  readonly admin: DataSource;
  /**
   * One transaction, as if it were the only one.
   * @param turn those with the same turn come one after the other, in every process, before they begin
   */
  transact<T>(work: (manager: EntityManager) => Promise<T>, turn?: string): Promise<T>;
  /** Many reads that see one state. */
  snapshot<T>(work: (manager: EntityManager) => Promise<T>): Promise<T>;
  close(): Promise<void>;
}
