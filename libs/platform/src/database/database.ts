import { AsyncLocalStorage } from 'node:async_hooks';
import { join } from 'node:path';
import type { EntityManager } from 'typeorm';
import type { Config } from '../config/config.js';
import { migrate } from './migrations.js';
import { openPostgres } from './postgres.js';
import { openSqlite } from './sqlite.js';
import type { Schema, Store } from './store.js';

/** Work that waits for the commit of a transaction. */
interface Transaction {
  afterCommit: (() => void)[];
}

/**
 * The only way to the records.
 *
 * `read` sees what is committed and cannot write. `write` is one transaction, in effect alone: on SQLite all
 * writes of the process pass one gate; on PostgreSQL transactions are serializable and tried again if need be.
 * Nothing slow may be awaited inside `write`, and nothing but the database may be changed by it.
 */
export class Database {
  private readonly current = new AsyncLocalStorage<Transaction>();
  private static readonly transactions = new WeakMap<EntityManager, Transaction>();

  private constructor(private readonly store: Store) {}

  /** Opens the database that the settings name and brings it to the newest migration. */
  static async open(config: Pick<Config, 'databaseUrl' | 'dataDir'>, schema: Schema): Promise<Database> {
    const store = config.databaseUrl
      ? await openPostgres(config.databaseUrl, schema)
      : await openSqlite(join(config.dataDir, 'ribband.sqlite'), schema);
    try {
      await migrate(store);
    } catch (error) {
      await store.close();
      throw error;
    }
    return new Database(store);
  }

  get kind(): 'sqlite' | 'postgres' {
    return this.store.kind;
  }

  /** Reads what is committed. Inside `write`, read through the manager that it hands over instead. */
  get read(): EntityManager {
    if (this.current.getStore()) {
      throw new Error('Inside a write, read through its own manager: database.read sees older rows');
    }
    return this.store.read;
  }

  /**
   * One transaction: all of it is kept, or nothing.
   * @param turn where a crowd may press at once: those with the same turn are let in one by one, in every process, so
   * that none is tried again and again until it gives up
   * @throws whatever the work throws, after rolling back
   */
  async write<T>(work: (manager: EntityManager) => Promise<T>, turn?: string): Promise<T> {
    if (this.current.getStore()) {
      throw new Error('A write inside a write: pass the manager on instead');
    }
    const transaction: Transaction = { afterCommit: [] };
    const result = await this.store.transact((manager) => {
      transaction.afterCommit = []; // PostgreSQL may try again
      Database.transactions.set(manager, transaction);
      return this.current.run(transaction, () => work(manager));
    }, turn);
    for (const act of transaction.afterCommit) act();
    return result;
  }

  /** Many reads that all see the same state of the records. */
  snapshot<T>(work: (manager: EntityManager) => Promise<T>): Promise<T> {
    if (this.current.getStore())
      throw new Error('A snapshot inside a write: read through its manager instead');
    return this.store.snapshot(work);
  }

  /**
   * Does something when the manager's transaction has been committed, and never if it is not. Such work must not
   * throw and must not be needed: the process may die between the two.
   */
  static afterCommit(manager: EntityManager, act: () => void): void {
    const transaction = Database.transactions.get(manager);
    if (!transaction) throw new Error('Only the manager of a write has a commit to wait for');
    transaction.afterCommit.push(act);
  }

  /** Whether the database answers and has every migration. @throws when it does not answer */
  async isReady(): Promise<boolean> {
    const rows: { name: string }[] = await this.store.read.query('SELECT "name" FROM "migrations"');
    const done = new Set(rows.map((row) => row.name));
    return this.store.admin.migrations.every((migration) =>
      done.has(migration.name ?? migration.constructor.name),
    );
  }

  /** The store itself, for the checks of migrations. */
  get internals(): Store {
    return this.store;
  }

  async close(): Promise<void> {
    await this.store.close();
  }
}
