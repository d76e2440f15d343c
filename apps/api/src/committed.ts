import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { WhoMay, whoMayTable } from '@ribband/access';
import { Config } from '@ribband/platform';
import { lexicographicSortSchema, printSchema } from 'graphql';
import { buildServer, type Server } from './server.js';

/** Files that are made from the server and kept in the repository, so that a change of it is seen. */
const files = {
  'schema.graphql': ({ schema }: Server) => `${printSchema(lexicographicSortSchema(schema))}\n`,
  'who-may.md': ({ app }: Server) => whoMayTable(app.get(WhoMay).operations()),
};

/** The contents that the files should have, by name. */
export async function makeFiles(): Promise<Record<string, string>> {
  const dataDir = mkdtempSync(join(tmpdir(), 'ribband-'));
  try {
    // On an empty database of its own, and without listening.
    const server = await buildServer(Config.read({ DATA_DIR: dataDir }), 'ask');
    const made = Object.fromEntries(Object.entries(files).map(([name, make]) => [name, make(server)]));
    await server.close();
    return made;
  } finally {
    rmSync(dataDir, { recursive: true, force: true });
  }
}

function pathOf(name: string): string {
  return fileURLToPath(new URL(`../${name}`, import.meta.url));
}

export function writeFiles(made: Record<string, string>): void {
  for (const [name, text] of Object.entries(made)) writeFileSync(pathOf(name), text);
}

/** @returns the names of the files that are not what the server has now */
export function outdatedFiles(made: Record<string, string>): string[] {
  return Object.keys(made).filter((name) => readFileSync(pathOf(name), 'utf8') !== made[name]);
}
