import { setTimeout as pause } from 'node:timers/promises';
import { ComputeJob, Database, newId, scratchPlace } from '@ribband/platform';
import { addressOf, foundYard, startApi, type TestApi } from '../harness/api.js';
import type { Client } from '../harness/client.js';
import { type Program, startProgram } from '../harness/process.js';
import { smallYard } from '../../libs/planning/src/yard/small-yard.fixture.js';

const redisUrl = process.env['TEST_REDIS_URL'] ?? process.env['REDIS_URL'];
const hasServers =
  Boolean(process.env['TEST_DATABASE_URL'] ?? process.env['DATABASE_URL']) && Boolean(redisUrl);
if (!hasServers && process.env['REQUIRE_ALL'] === '1')
  throw new Error('TEST_DATABASE_URL and TEST_REDIS_URL are missing, and REQUIRE_ALL is set');

const worker = (settings: Record<string, string>) => startProgram('apps/worker/dist/main.js', [], settings);

describe('a worker', () => {
  it('says what it needs when it has no PostgreSQL and no Redis', async () => {
    const program = worker({});
    expect(await program.end()).toBe(1);
    expect(program.complained()).toContain('DATABASE_URL');
    expect(program.complained()).toContain('REDIS_URL');
  });
});

(hasServers ? describe : describe.skip)('workers beside the API, on PostgreSQL and Redis', () => {
  let place: Awaited<ReturnType<typeof scratchPlace>>;
  let settings: Record<string, string>;
  let api: TestApi;
  let director: Client;
  const programs: Program[] = [];

  const startWorker = async (): Promise<Program> => {
    const program = worker(settings);
    programs.push(program);
    await program.until(/takes computing jobs/);
    return program;
  };
  const jobs = () => api.server.app.get(Database).read.find(ComputeJob, { order: { id: 'ASC' } });
  const until = async (what: () => Promise<boolean>): Promise<void> => {
    const end = Date.now() + 45_000;
    while (!(await what())) {
      if (Date.now() > end) throw new Error(`waited in vain: ${JSON.stringify(await jobs())}`);
      await pause(100);
    }
  };
  const plan = async () =>
    (
      await director.query<{ plan: { revision: number; isNewest: boolean } | null }>(
        '{ plan { revision isNewest } }',
      )
    ).plan;
  const ask = () => director.query('mutation { askForPlan(seconds: 1) { __typename } }');

  beforeEach(async () => {
    place = await scratchPlace('postgres');
    settings = {
      DATABASE_URL: place.databaseUrl ?? '',
      REDIS_URL: redisUrl ?? '',
      REDIS_PREFIX: newId('test').replace('_', '-'),
    };
    api = await startApi({ computing: 'ask', settings });
    await foundYard(api, { isDemo: true });
    director = await api.signIn(addressOf('director'));
    await director.query(
      'mutation ($document: JSONDocument!) { importYard(document: $document) { __typename } }',
      {
        document: smallYard(),
      },
    );
    await director.query('mutation { moveYardClock(to: "2027-03-06T15:00:00Z") { __typename } }');
  }, 60_000);
  afterEach(async () => {
    for (const program of programs.splice(0)) await program.stop('SIGKILL');
    await api.close();
    await place.remove();
  });

  it('compute what the API asks for, each job once, whoever of them takes it', async () => {
    expect(await plan()).toBeNull();
    await Promise.all([startWorker(), startWorker()]);
    await until(async () => (await plan())?.isNewest === true);
    await ask();
    await until(
      async () => (await jobs()).every((job) => job.state === 'done') && (await plan())?.isNewest === true,
    );
    expect((await jobs()).map((job) => job.tries)).toEqual((await jobs()).map(() => 1));
  }, 90_000);

  it('go in good order when told to, and another one finishes what was begun', async () => {
    const first = await startWorker();
    await director.query('mutation { askForPlan(seconds: 60) { __typename } }');
    await until(async () => (await jobs()).some((job) => job.state === 'running'));
    expect(await first.stop('SIGTERM')).toBe(0);
    await startWorker();
    await ask();
    await until(
      async () => (await jobs()).every((job) => job.state === 'done') && (await plan())?.isNewest === true,
    );
  }, 120_000);
});
