import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { v7 } from 'uuid';
import { DataSource } from 'typeorm';
import { Database } from './database.js';
import type { Schema } from './store.js';

/** A database for one test or one measurement; `close` leaves nothing behind. */
export interface ScratchDatabase {
  database: Database;
  close(): Promise<void>;
}

export type DatabaseKind = 'sqlite' | 'postgres';

/**
 * The kinds of database that tests can use here: SQLite always, PostgreSQL when TEST_DATABASE_URL names a server
 * on which databases may be created. With REQUIRE_ALL=1 a missing server is an error.
 */
export function scratchKinds(): DatabaseKind[] {
  if (serverUrl()) return ['sqlite', 'postgres'];
  if (process.env['REQUIRE_ALL'] === '1')
    throw new Error('TEST_DATABASE_URL is missing, and REQUIRE_ALL is set');
  return ['sqlite'];
}

function serverUrl(): string | undefined {
  return process.env['TEST_DATABASE_URL'] ?? process.env['DATABASE_URL'];
}

/** Opens an empty, migrated database in a temporary folder or on the PostgreSQL server of the tests. */
export async function openScratchDatabase(
  schema: Schema,
  kind: DatabaseKind = 'sqlite',
): Promise<ScratchDatabase> {
  const place = await scratchPlace(kind);
  const database = await Database.open(place, schema);
  return {
    database,
    async close() {
      await database.close();
      await place.remove();
    },
  };
}

/** Where a scratch database will live; for those who open it themselves, or more than once. */
export async function scratchPlace(
  kind: DatabaseKind,
): Promise<{ databaseUrl: string | null; dataDir: string; remove(): Promise<void> }> {
  const dataDir = await mkdtemp(join(tmpdir(), 'ribband-'));
  const removeFolder = (): Promise<void> => rm(dataDir, { recursive: true, force: true });
  if (kind === 'sqlite') return { databaseUrl: null, dataDir, remove: removeFolder };
  const url = serverUrl();
  if (!url) throw new Error('A PostgreSQL scratch database needs TEST_DATABASE_URL');
  const name = `scratch_${v7().replaceAll('-', '')}`;
  await onServer(url, `CREATE DATABASE "${name}"`);
  const own = new URL(url);
  own.pathname = `/${name}`;
  return {
    databaseUrl: own.toString(),
    dataDir,
    async remove() {
      await onServer(url, `DROP DATABASE "${name}" WITH (FORCE)`);
      await removeFolder();
    },
  };
}

async function onServer(url: string, statement: string): Promise<void> {
  const server = await new DataSource({ type: 'postgres', url, logging: false }).initialize();
  try {
    await server.query(statement);
  } finally {
    await server.destroy();
  }
}
