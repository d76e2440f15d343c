import { mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import sqlite3 from 'sqlite3';
import { DataSource, EntityManager, type QueryRunner } from 'typeorm';
import { oneTransaction } from './one-transaction.js';
import type { Schema, Store } from './store.js';
import { lockFile, type ProcessLock } from './process-lock.js';
import { WriteGate } from './write-gate.js';

/*
 * SQLite through TypeORM has one query runner a data source, so that transactions which overlap become savepoints
 * of each other, and one that rolls back takes the committed rows of another with it. Therefore three data
 * sources on the same file, and one gate:
 *
 *   writing   one at a time through the gate, BEGIN IMMEDIATE
 *   reading   read only, sees only what is committed (write-ahead log)
 *   snapshots read only, one at a time, sees one state for many statements
 */

const busyTimeoutMillis = 5_000;

/** TypeORM asks its driver to be verbose: each call would then spell out its arguments for an error that seldom comes. */
const plainDriver = { ...sqlite3, verbose: () => sqlite3 };

async function connect(path: string, schema: Schema, readOnly: boolean): Promise<DataSource> {
  const source = new DataSource({
    type: 'sqlite',
    driver: plainDriver,
    database: path,
    ...(readOnly ? { flags: sqlite3.OPEN_READONLY } : { enableWAL: true }),
    busyTimeout: busyTimeoutMillis,
    entities: schema.entities,
    migrations: readOnly ? [] : schema.migrations,
    migrationsTransactionMode: 'each',
    logging: false,
  });
  await source.initialize();
  // A commit is on the disk before anybody is told; what is deleted is overwritten.
  const pragmas = readOnly ? ['query_only = 1'] : ['synchronous = FULL', 'secure_delete = 1'];
  for (const pragma of pragmas) await source.query(`PRAGMA ${pragma}`);
  return source;
}

/**
 * Opens the SQLite file for this process alone.
 * @throws DatabaseInUseError when another process has it open
 */
export async function openSqlite(path: string, schema: Schema): Promise<Store> {
  // What lies in it is for this account of the machine only: names, birthdays, hashes of passwords.
  mkdirSync(dirname(path), { recursive: true, mode: 0o700 });
  const lock = await lockFile(path);
  const open: DataSource[] = [];
  try {
    const writing = await connect(path, schema, false);
    open.push(writing);
    const reading = await connect(path, schema, true);
    open.push(reading);
    const snapshots = await connect(path, schema, true);
    open.push(snapshots);
    return sqliteStore(writing, reading, snapshots, lock);
  } catch (error) {
    for (const source of open) await source.destroy();
    await lock.release();
    throw error;
  }
}

function sqliteStore(
  writing: DataSource,
  reading: DataSource,
  snapshots: DataSource,
  lock: ProcessLock,
): Store {
  const writeGate = new WriteGate();
  const snapshotGate = new WriteGate();
  return {
    kind: 'sqlite',
    read: reading.manager,
    admin: writing,
    transact: (work) => writeGate.pass(() => transact(writing, 'BEGIN IMMEDIATE', work)),
    snapshot: (work) => snapshotGate.pass(() => transact(snapshots, 'BEGIN DEFERRED', work)),
    async close() {
      // Waiting at the gate lets a transaction that has begun come to its end.
      await writeGate.pass(() => writing.destroy());
      await snapshotGate.pass(() => snapshots.destroy());
      await reading.destroy();
      await lock.release();
    },
  };
}

function transact<T>(
  source: DataSource,
  begin: string,
  work: (manager: EntityManager) => Promise<T>,
): Promise<T> {
  // TypeORM has one runner here and begins with a plain BEGIN; each transaction gets one of its own that stands
  // in front of it, with its own count of what is active.
  const shared = source.createQueryRunner();
  const runner = Object.create(shared) as QueryRunner & { manager: EntityManager };
  runner.query = (sql: string, ...rest: [unknown[]?, boolean?]) =>
    shared.query(sql === 'BEGIN TRANSACTION' ? begin : sql, ...(rest as [])) as Promise<never>;
  runner.manager = new EntityManager(source, runner);
  return oneTransaction(runner, undefined, work);
}
