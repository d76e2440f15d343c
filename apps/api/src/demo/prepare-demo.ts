import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { Accounts, oneTimePassword, Organisations } from '@ribband/access';
import { DemoYard } from '@ribband/planning';
import type { Config } from '@ribband/platform';
import type { Server } from '../server.js';
import { type DemoPeople, noteDemoPeople, readDemoPeople } from './demo-people.js';

/** The invented yard that comes with the program. */
const demoYard = fileURLToPath(new URL('../../../../fixtures/demo-yard.json', import.meta.url));

/**
 * Sets up the demo yard when the database has no yard at all, with a password made for this installation. The
 * password is noted first: a process that dies in between leaves a yard that people can still get into.
 * @returns who can sign in; null when the database holds no demo yard that was set up from this data folder
 */
export async function prepareDemo(server: Server, config: Config): Promise<DemoPeople | null> {
  const organisations = server.app.get(Organisations);
  const noted = readDemoPeople(config);
  if (!(await organisations.isAnyThere())) {
    const password = noted?.password ?? oneTimePassword();
    noteDemoPeople(config, { password, people: [] });
    const document: unknown = JSON.parse(readFileSync(demoYard, 'utf8'));
    try {
      const people = await server.app.get(DemoYard).seed(document, password);
      return noteDemoPeople(config, { password, people });
    } catch (error) {
      // With PostgreSQL another process may have been quicker; it tells its own people.
      if (await organisations.isAnyThere()) return null;
      throw error;
    }
  }
  if (!noted || noted.people.length > 0) return noted;
  return noteDemoPeople(config, { ...noted, people: await server.app.get(Accounts).ofDemoYard() });
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
