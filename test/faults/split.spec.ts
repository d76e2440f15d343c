import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { newId, scratchKinds, scratchPlace } from '@ribband/platform';
import { Client } from '../harness/client.js';
import { freePort, type Program, startProgram } from '../harness/process.js';

/** Milliseconds: a silent worker is believed in for half a minute. */
const patience = 240_000;

const redisUrl = process.env['TEST_REDIS_URL'];
if (!redisUrl && process.env['REQUIRE_ALL'] === '1') throw new Error('TEST_REDIS_URL is missing');
const canRun = redisUrl !== undefined && scratchKinds().includes('postgres');

(canRun ? describe : describe.skip)('a yard served by one process and computed by others', () => {
  let dataDir: string;
  let place: Awaited<ReturnType<typeof scratchPlace>>;
  let settings: Record<string, string>;
  let director: Client;
  const programs: Program[] = [];

  beforeAll(async () => {
    dataDir = mkdtempSync(join(tmpdir(), 'ribband-'));
    place = await scratchPlace('postgres');
    const port = await freePort();
    settings = {
      DATA_DIR: dataDir,
      PORT: String(port),
      DATABASE_URL: place.databaseUrl ?? '',
      REDIS_URL: redisUrl ?? '',
      REDIS_PREFIX: newId('test').replace('_', '-'),
      PLAN_SECONDS: '3',
    };
    const api = startProgram('apps/api/dist/main.js', ['--no-computing'], settings);
    programs.push(api);
    await api.until(/each with the password/);
    const { password, people } = JSON.parse(readFileSync(join(dataDir, 'demo-sign-in.json'), 'utf8')) as {
      password: string;
      people: { role: string; email: string }[];
    };
    director = new Client(`http://127.0.0.1:${port}`);
    await director.signIn(people.find((one) => one.role === 'director')?.email ?? '', password);
  }, patience);

  afterAll(async () => {
    await director.close();
    for (const program of programs) await program.stop('SIGKILL');
    await place.remove();
    rmSync(dataDir, { recursive: true, force: true });
  }, patience);

  const startWorker = (): Program => {
    const worker = startProgram('apps/worker/dist/main.js', [], settings);
    programs.push(worker);
    return worker;
  };
  const stateIs = async (state: string, seconds: number): Promise<void> => {
    const end = Date.now() + seconds * 1_000;
    for (;;) {
      const { computing } = await director.query<{ computing: { state: string } | null }>(
        '{ computing { state } }',
      );
      if (computing?.state === state) return;
      if (Date.now() > end) throw new Error(`It is ${computing?.state} and not ${state}`);
      await pause(100);
    }
  };

  it(
    'keeps the request while there is nobody to compute',
    async () => {
      await stateIs('WAITING', 5);
      expect(await director.query('{ plan { id } }')).toEqual({ plan: null });
    },
    patience,
  );

  it(
    'gets its plan from a worker, although the first one is killed in the middle of it',
    async () => {
      const killed = startWorker();
      await stateIs('RUNNING', 60);
      await killed.stop('SIGKILL');
      await stateIs('RUNNING', 1);
      startWorker();
      await stateIs('DONE', 120);
      const { plan } = await director.query<{ plan: { isNewest: boolean } | null }>('{ plan { isNewest } }');
      expect(plan).toEqual({ isNewest: true });
    },
    patience,
  );

  it(
    'hears of the next plan from the process that has made it',
    async () => {
      const news = director.subscribe('subscription { planPublished { planId } }');
      const heard = news.next();
      await pause(1_000);
      await director.query('mutation { askForPlan(seconds: 1) { __typename } }');
      await stateIs('DONE', 60);
      // The first plan of a new revision is always published.
      expect(await heard).toMatchObject({
        value: { data: { planPublished: { planId: expect.any(String) as string } } },
      });
    },
    patience,
  );
});
