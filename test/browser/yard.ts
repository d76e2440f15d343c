import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtemp, readFile, rm } from 'node:fs/promises';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { Client } from '../harness/client.js';

export type Role = 'director' | 'coordinator' | 'shipwright' | 'volunteer';

/** The demo yard as `npm start` sets it up, in a process and a folder of its own. */
export interface Yard {
  address: string;
  account(role: Role): { email: string; name: string; password: string };
  /** Signs in and hands back the session's cookie, `name=value`. */
  cookie(role: Role): Promise<string>;
  /** Signs in over the API. */
  client(role: Role): Promise<Client>;
  stop(): Promise<void>;
}

interface DemoPeople {
  password: string;
  people: { role: Role; name: string; email: string }[];
}

const main = fileURLToPath(new URL('../../apps/api/dist/main.js', import.meta.url));

/** Starts the built server on an empty folder and waits until its first plan stands. */
export async function startYard(): Promise<Yard> {
  const folder = await mkdtemp(join(tmpdir(), 'ribband-browser-'));
  const port = await freePort();
  const server = spawn(process.execPath, [main], {
    env: {
      ...process.env,
      NODE_OPTIONS: '',
      PORT: String(port),
      HOST: '127.0.0.1',
      DATA_DIR: folder,
    },
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  const said: string[] = [];
  for (const pipe of [server.stdout, server.stderr])
    pipe.on('data', (text: Buffer) => said.push(text.toString()));
  const stop = async () => {
    await ended(server);
    await rm(folder, { recursive: true, force: true });
  };
  try {
    const address = `http://127.0.0.1:${port}`;
    await until('the server is ready', async () => {
      if (server.exitCode !== null)
        throw new Error(`the server ended with ${server.exitCode}:\n${said.join('')}`);
      return fetch(`${address}/health/ready`).then(
        (answer) => answer.ok,
        () => false,
      );
    });
    const { password, people } = JSON.parse(
      await readFile(join(folder, 'demo-sign-in.json'), 'utf8'),
    ) as DemoPeople;
    const account = (role: Role) => {
      const person = people.find((each) => each.role === role);
      if (!person) throw new Error(`the demo yard has no ${role}`);
      return { ...person, password };
    };
    const client = async (role: Role) => {
      const made = new Client(address);
      await made.signIn(account(role).email, password);
      return made;
    };
    const director = await client('director');
    await until('the first plan stands', async () => {
      const { plan } = await director.query<{ plan: { readyOn: string | null } | null }>(
        '{ plan { readyOn } }',
      );
      return plan !== null;
    });
    return { address, account, client, cookie: async (role) => (await client(role)).cookie ?? '', stop };
  } catch (error) {
    await stop();
    throw new Error(said.join('').slice(-4000), { cause: error });
  }
}

/** Posts the proposed roster. A better plan may come between reading it and posting it: then it is read again. */
export async function postWeek(coordinator: Client, weekOf: string): Promise<void> {
  await until('the week is posted', async () => {
    const { weekProposal } = await coordinator.query<{ weekProposal: { planId: string } }>(
      'query Proposal($weekOf: LocalDate!) { weekProposal(weekOf: $weekOf) { planId } }',
      { weekOf },
    );
    const { postWeek: answer } = await coordinator.query<{ postWeek: { __typename: string } }>(
      'mutation Post($weekOf: LocalDate!, $planId: ID!) { postWeek(weekOf: $weekOf, planId: $planId) { __typename } }',
      { weekOf, planId: weekProposal.planId },
    );
    return answer.__typename === 'PostWeekPayload';
  });
}

async function until(what: string, holds: () => Promise<boolean>): Promise<void> {
  const latest = Date.now() + 150_000;
  while (Date.now() < latest) {
    if (await holds()) return;
    await new Promise((resolve) => setTimeout(resolve, 200));
  }
  throw new Error(`waited 150 s in vain until ${what}`);
}

async function ended(server: ChildProcess): Promise<void> {
  if (server.exitCode !== null || server.signalCode !== null) return;
  await new Promise<void>((resolve) => {
    server.once('exit', () => {
      resolve();
    });
    server.kill('SIGTERM');
  });
}

function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const address = probe.address();
      probe.close(() => {
        if (address && typeof address === 'object') resolve(address.port);
        else reject(new Error('no port'));
      });
    });
  });
}
