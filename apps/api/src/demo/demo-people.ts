import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { readFile } from 'node:fs/promises';
import { fileURLToPath } from 'node:url';
import { oneTimePassword, Organisations, roles } from '@ribband/access';
import { DemoYard } from '@ribband/planning';
import type { Config } from '@ribband/platform';
import { z } from 'zod';
import type { Server } from '../server.js';

/** The invented yard that comes with the program. */
const demoYard = fileURLToPath(new URL('../../../../fixtures/demo-yard.json', import.meta.url));

const person = z.object({ role: z.enum(roles), name: z.string(), email: z.string() });

const demoPeople = z.object({ password: z.string(), people: z.array(person) });

/** Who can sign in at the demo yard of this data folder. */
export type DemoPeople = z.infer<typeof demoPeople>;

function fileIn(config: Config): string {
  return join(config.dataDir, 'demo-sign-in.json');
}

/** What was noted when the demo yard was set up; null when this data folder has none. */
export function readDemoPeople(config: Config): DemoPeople | null {
  const file = fileIn(config);
  return existsSync(file) ? demoPeople.parse(JSON.parse(readFileSync(file, 'utf8'))) : null;
}

/**
 * Sets up the demo yard when the database has no yard at all, with a password made for this installation.
 * @returns who can sign in; null when the database has yards already
 */
export async function seedIfEmpty(server: Server, config: Config): Promise<DemoPeople | null> {
  const organisations = server.app.get(Organisations);
  if (await organisations.isAnyThere()) return null;
  const password = oneTimePassword();
  let people: DemoPeople['people'];
  try {
    const document: unknown = JSON.parse(await readFile(demoYard, 'utf8'));
    people = await server.app.get(DemoYard).seed(document, password);
  } catch (error) {
    // With PostgreSQL another process may have been quicker.
    if (await organisations.isAnyThere()) return null;
    throw error;
  }
  const noted: DemoPeople = { password, people };
  mkdirSync(config.dataDir, { recursive: true });
  writeFileSync(fileIn(config), `${JSON.stringify(noted, null, 2)}\n`, { mode: 0o600 });
  // The mode above only counts for a new file.
  chmodSync(fileIn(config), 0o600);
  return noted;
}

/** How to sign in as each of the four, as lines to be printed. */
export function howToSignIn({ password, people }: DemoPeople): string[] {
  const width = Math.max(...people.map((one) => one.email.length));
  return [
    'Sign in at the demo yard as',
    ...people.map((one) => `  ${one.email.padEnd(width)}  ${one.name}, ${one.role}`),
    `each with the password  ${password}`,
  ];
}
