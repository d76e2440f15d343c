import { setTimeout as pause } from 'node:timers/promises';
import { DataSource, EntityManager, QueryFailedError, type QueryRunner } from 'typeorm';
import { oneTransaction } from './one-transaction.js';
import type { Schema, Store } from './store.js';
import { WriteGate } from './write-gate.js';

const maxTries = 20;

/**
 * Opens a PostgreSQL database. Transactions are SERIALIZABLE and tried again when the database could not put them
 * in an order, so that a use case may read and then write as it may on SQLite; the work may thus run more than
 * once and must do nothing outside the database.
 */
export async function openPostgres(url: string, schema: Schema): Promise<Store> {
  const writing = new DataSource({
    type: 'postgres',
    url,
    entities: schema.entities,
    migrations: schema.migrations,
    migrationsTransactionMode: 'each',
    logging: false,
  });
  const reading = new DataSource({
    type: 'postgres',
    url,
    entities: schema.entities,
    logging: false,
    extra: { options: '-c default_transaction_read_only=on' },
  });
  await writing.initialize();
  try {
    await reading.initialize();
  } catch (error) {
    await writing.destroy();
    throw error;
  }
  const turns = new Turns(writing);
  return {
    kind: 'postgres',
    read: reading.manager,
    admin: writing,
    transact: (work, turn) =>
      turn === undefined
        ? inSomeOrder(() => transact(writing, 'SERIALIZABLE', work))
        : turns.take(turn, (runner) =>
            inSomeOrder(() => oneTransaction(again(writing, runner), 'SERIALIZABLE', work)),
          ),
    snapshot: (work) => transact(reading, 'REPEATABLE READ', work),
    async close() {
      await reading.destroy();
      await writing.destroy();
    },
  };
}

async function transact<T>(
  source: DataSource,
  isolation: 'SERIALIZABLE' | 'REPEATABLE READ',
  work: (manager: EntityManager) => Promise<T>,
): Promise<T> {
  const runner = source.createQueryRunner();
  try {
    return await oneTransaction(runner, isolation, work);
  } finally {
    await runner.release();
  }
}

/**
 * Lets transactions begin one by one: by a gate in this process and by an advisory lock among processes. The lock is
 * taken before the transaction, whose view of the records would else be older than its turn, and on its connection,
 * so that nobody waits for a connection while holding a turn.
 */
class Turns {
  readonly #gates = new Map<string, { gate: WriteGate; waiting: number }>();

  constructor(private readonly source: DataSource) {}

  async take<T>(turn: string, work: (runner: QueryRunner) => Promise<T>): Promise<T> {
    const entry = this.#gates.get(turn) ?? { gate: new WriteGate(), waiting: 0 };
    this.#gates.set(turn, entry);
    entry.waiting += 1;
    try {
      return await entry.gate.pass(() => this.#locked(turn, work));
    } finally {
      entry.waiting -= 1;
      if (entry.waiting === 0) this.#gates.delete(turn);
    }
  }

  async #locked<T>(turn: string, work: (runner: QueryRunner) => Promise<T>): Promise<T> {
    const runner = this.source.createQueryRunner();
    await runner.connect();
    try {
      await runner.query('SELECT pg_advisory_lock(hashtextextended($1, 7422262))', [turn]);
      try {
        return await work(runner);
      } finally {
        await runner.query('SELECT pg_advisory_unlock(hashtextextended($1, 7422262))', [turn]);
      }
    } finally {
      await runner.release();
    }
  }
}

/** A runner for one transaction more on the same connection: each is closed at its end and not used again. */
function again(source: DataSource, connected: QueryRunner): QueryRunner {
  const runner = Object.create(connected) as QueryRunner & { manager: EntityManager };
  runner.manager = new EntityManager(source, runner);
  return runner;
}

async function inSomeOrder<T>(attempt: () => Promise<T>): Promise<T> {
  for (let tries = 1; ; tries++) {
    try {
      return await attempt();
    } catch (error) {
      if (tries === maxTries || !couldNotBeOrdered(error)) throw error;
      await pause(Math.random() * Math.min(5 * 2 ** tries, 250));
    }
  }
}

// 40001 serialization_failure, 40P01 deadlock_detected (PostgreSQL manual, appendix A).
function couldNotBeOrdered(error: unknown): boolean {
  const code =
    error instanceof QueryFailedError
      ? (error.driverError as { code?: string }).code
      : (error as { code?: string }).code;
  return code === '40001' || code === '40P01';
}

/** Keeps other processes out while the work runs (PostgreSQL advisory lock, held by one connection). */
export async function alone(
  source: DataSource,
  work: (manager: EntityManager) => Promise<void>,
): Promise<void> {
  const runner = source.createQueryRunner();
  const key = 7_422_262; // any number, the same in every process of ours
  await runner.connect();
  try {
    await runner.query('SELECT pg_advisory_lock($1)', [key]);
    try {
      await work(runner.manager);
    } finally {
      await runner.query('SELECT pg_advisory_unlock($1)', [key]);
    }
  } finally {
    await runner.release();
  }
}
