import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { Accounts, Organisations, Passwords, type Role, roles } from '@ribband/access';
import { type Computing, Config, Database } from '@ribband/platform';
import { buildServer, type Server } from '../../apps/api/src/server.js';
import { Client } from './client.js';

/** The password of every account that the harness opens. */
export const testPassword = 'larch wedge treenail';

/** A whole server in this process, on a free port, with a database of its own. */
export interface TestApi {
  server: Server;
  url: string;
  /** Somebody with a browser who has not signed in. */
  visitor(): Client;
  /** Somebody who has signed in. */
  signIn(email: string, password?: string): Promise<Client>;
  close(): Promise<void>;
}

/** What a test may choose. */
export interface TestApiOptions {
  /** `ask` unless given: computing jobs are asked for but not run. */
  computing?: Computing;
  /** More settings, by the names of their environment variables. */
  settings?: Record<string, string>;
  /** The folder of a built page. */
  page?: string;
  /** Goes on with the data of an earlier server, which must have been closed. */
  dataDir?: string;
}

/** Starts the real API. Its folder goes when it is closed, unless the test has brought one. */
export async function startApi(options: TestApiOptions = {}): Promise<TestApi> {
  const dataDir = options.dataDir ?? (await mkdtemp(join(tmpdir(), 'ribband-')));
  const config = Config.read({ PORT: '0', DATA_DIR: dataDir, ...options.settings });
  const server = await buildServer(config, options.computing ?? 'ask', options.page);
  const url = await server.listen();
  return {
    server,
    url,
    visitor: () => new Client(url),
    async signIn(email, password = testPassword) {
      const client = new Client(url);
      await client.signIn(email, password);
      return client;
    },
    async close() {
      await server.close();
      if (!options.dataDir) await rm(dataDir, { recursive: true, force: true });
    },
  };
}

/**
 * Founds an empty yard with one account for each role: `director@yard.example` and so on.
 * @param volunteerId the entry in the crew's list of the volunteer's account
 * @returns the id of the yard
 */
export async function foundYard(
  api: TestApi,
  options: { name?: string; domain?: string; isDemo?: boolean; volunteerId?: string } = {},
): Promise<string> {
  const { app } = api.server;
  const hash = await app.get(Passwords).hash(testPassword);
  return app.get(Database).write(async (manager) => {
    const yard = await app.get(Organisations).found(manager, {
      name: options.name ?? 'The Test Yard',
      units: 'imperial',
      crewOddsWish: 0.85,
      isDemo: options.isDemo ?? false,
    });
    for (const role of roles) {
      const account = {
        email: addressOf(role, options.domain),
        name: `The ${role}`,
        role,
        volunteerId: role === 'volunteer' ? (options.volunteerId ?? null) : null,
      };
      await app.get(Accounts).openWith(manager, yard.id, account, hash);
    }
    return yard.id;
  });
}

/** The address with which the account of a role signs in. */
export function addressOf(role: Role, domain = 'yard.example'): string {
  return `${role}@${domain}`;
}
