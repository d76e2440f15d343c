import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { freePort, type Program, startProgram } from '../harness/process.js';

/** Milliseconds: each part starts processes. */
const patience = 120_000;

const main = 'apps/api/dist/main.js';
if (!existsSync(main)) throw new Error(`${main} is missing: npm run build first`);

describe('the server as a process', () => {
  let dataDir: string;
  let settings: Record<string, string>;
  let url: string;
  const started: Program[] = [];

  beforeEach(async () => {
    dataDir = mkdtempSync(join(tmpdir(), 'ribband-'));
    const port = await freePort();
    settings = { DATA_DIR: dataDir, PORT: String(port), PLAN_SECONDS: '0.1' };
    url = `http://127.0.0.1:${port}`;
  }, patience);
  afterEach(async () => {
    for (const program of started.splice(0)) {
      if (program.child.exitCode === null && program.child.signalCode === null) await program.stop('SIGKILL');
    }
    rmSync(dataDir, { recursive: true, force: true });
  }, patience);

  const start = async (more: Record<string, string> = {}): Promise<Program> => {
    const program = startProgram(main, [], { ...settings, ...more });
    started.push(program);
    await program.until(/Ribband is at http/);
    return program;
  };
  const refuses = async (args: string[], more: Record<string, string>): Promise<string> => {
    const program = startProgram(main, args, { ...settings, ...more });
    started.push(program);
    expect(await program.end()).toBe(1);
    expect(program.said()).toBe('');
    return program.complained();
  };

  it(
    'says where it is and that it is ready, and stops in good order',
    async () => {
      const program = await start();
      expect(program.said()).toContain(url);
      const live = await fetch(`${url}/health/live`);
      expect([live.status, await live.json()]).toEqual([200, { live: true }]);
      const ready = await fetch(`${url}/health/ready`);
      expect([ready.status, await ready.json()]).toEqual([200, { ready: true, database: 'ok', queue: 'ok' }]);
      expect(await program.stop()).toBe(0);
    },
    patience,
  );

  it(
    'refuses to serve a yard that another process serves, and says which',
    async () => {
      const first = await start();
      const words = await refuses([], { PORT: String(await freePort()) });
      expect(words).toContain('in use by another process');
      expect(words).toContain(String(first.child.pid));
      expect((await fetch(`${url}/health/live`)).status).toBe(200);
    },
    patience,
  );

  it(
    'starts again at once after it was killed',
    async () => {
      await (await start()).stop('SIGKILL');
      await start();
      expect((await fetch(`${url}/health/ready`)).status).toBe(200);
    },
    patience,
  );

  it(
    'names all settings that are wrong, and what would be right',
    async () => {
      const words = await refuses([], { PORT: 'x', REDIS_URL: 'http://secret' });
      expect(words).toContain('PORT: must be a port number');
      expect(words).toContain('REDIS_URL: must start with redis://');
      expect(words).not.toContain('secret');
    },
    patience,
  );

  it(
    'says so when the port is taken',
    async () => {
      await start();
      const other = mkdtempSync(join(tmpdir(), 'ribband-'));
      expect(await refuses([], { DATA_DIR: other })).toContain('The port is in use');
      rmSync(other, { recursive: true });
    },
    patience,
  );

  it(
    'computes itself when its yard is a SQLite file',
    async () => {
      expect(await refuses(['--no-computing'], {})).toContain('leave out --no-computing');
    },
    patience,
  );

  it(
    'is not ready while its queue is away, and does not fall over',
    async () => {
      await start({ REDIS_URL: `redis://127.0.0.1:${await freePort()}` });
      const ready = await fetch(`${url}/health/ready`);
      expect([ready.status, await ready.json()]).toEqual([
        503,
        { ready: false, database: 'ok', queue: 'away' },
      ]);
      expect((await fetch(`${url}/health/live`)).status).toBe(200);
    },
    patience,
  );
});
