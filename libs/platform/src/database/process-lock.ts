import sqlite3 from 'sqlite3';

/** Another process has the SQLite file open. */
export class DatabaseInUseError extends Error {
  constructor(path: string, holder: string) {
    super(
      `${path} is in use by another process (${holder}). ` +
        'A SQLite yard is served by one process only: stop the other one, or set another DATA_DIR. ' +
        'For several processes use PostgreSQL (DATABASE_URL).',
    );
    this.name = 'DatabaseInUseError';
  }
}

/** Holds a file for this process; the operating system lets go of it if the process dies. */
export interface ProcessLock {
  release(): Promise<void>;
}

const waitMillis = 1_500;

/**
 * Takes the database file for this process. The lock is a write transaction that stays open on a small SQLite
 * file beside it: SQLite locks through the operating system, so that a crash leaves nothing to clean up; and the
 * name of the holder can still be read.
 * @throws DatabaseInUseError
 */
export async function lockFile(databasePath: string): Promise<ProcessLock> {
  const lockPath = `${databasePath}.lock`;
  const connection = await open(lockPath);
  try {
    await run(connection, `PRAGMA busy_timeout = ${waitMillis}`);
    await run(connection, 'BEGIN IMMEDIATE');
    await run(connection, 'CREATE TABLE IF NOT EXISTS holder (pid INTEGER, since TEXT)');
    await run(connection, 'DELETE FROM holder');
    await run(connection, `INSERT INTO holder VALUES (${process.pid}, '${new Date().toISOString()}')`);
    await run(connection, 'COMMIT');
    await run(connection, 'BEGIN IMMEDIATE');
  } catch (error) {
    const isBusy = (error as { code?: string }).code === 'SQLITE_BUSY';
    const holder = isBusy ? await readHolder(connection) : '';
    await close(connection);
    throw isBusy ? new DatabaseInUseError(databasePath, holder) : error;
  }
  return { release: () => close(connection) };
}

function open(path: string): Promise<sqlite3.Database> {
  return new Promise((resolve, reject) => {
    const connection: sqlite3.Database = new sqlite3.Database(path, (error) => {
      if (error) reject(error);
      else resolve(connection);
    });
  });
}

function run(connection: sqlite3.Database, sql: string): Promise<void> {
  return new Promise((resolve, reject) => {
    connection.run(sql, (error) => {
      if (error) reject(error);
      else resolve();
    });
  });
}

function readHolder(connection: sqlite3.Database): Promise<string> {
  return new Promise((resolve) => {
    connection.get('SELECT pid, since FROM holder', (error, row?: { pid: number; since: string }) => {
      resolve(error || !row ? 'one that is just starting' : `process ${row.pid}, since ${row.since}`);
    });
  });
}

function close(connection: sqlite3.Database): Promise<void> {
  return new Promise((resolve, reject) => {
    connection.close((error) => {
      if (error) reject(error);
      else resolve();
    });
  });
}
