import { setTimeout as pause } from 'node:timers/promises';
import {
  type DynamicModule,
  type INestApplicationContext,
  Injectable,
  Module,
  type Type,
} from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { z } from 'zod';
import { Config } from '../config/config.js';
import { Database } from '../database/database.js';
import { scratchKinds, scratchPlace } from '../database/scratch.js';
import { newId } from '../ids/ids.js';
import { PlatformModule } from '../platform.module.js';
import { platformEntities, platformMigrations } from '../platform.schema.js';
import { connectRedis } from '../redis/redis.js';
import { ComputeJob } from './compute-job.entity.js';
import {
  type ComputeControl,
  type ComputeHandler,
  ComputeJobHandler,
  type ComputeTask,
  GiveUp,
  RunLostError,
  Stopped,
} from './handler.js';
import { Revisions } from './revisions.js';

const payload = z.object({ seconds: z.number().optional() });
type Payload = z.infer<typeof payload>;

/** Stands for the planning room: does what the test wants and remembers what it was asked for. */
@Injectable()
@ComputeJobHandler('plan')
class Planner implements ComputeHandler<Payload> {
  readonly payload = payload;
  readonly tries = 3;
  readonly runTwice = 'remembers both';
  readonly asked: number[] = [];
  act: (task: ComputeTask<Payload>, control: ComputeControl) => Promise<void> = () => Promise.resolve();

  async run(task: ComputeTask<Payload>, control: ComputeControl): Promise<void> {
    this.asked.push(task.revision);
    await this.act(task, control);
  }
}

@Injectable()
@ComputeJobHandler('plan')
class SecondPlanner extends Planner {}

/** The other jobs have their handlers too. */
@Injectable()
@ComputeJobHandler('lay-up')
class TimberTable extends Planner {}

@Injectable()
@ComputeJobHandler('forecast')
class Forecaster extends Planner {}

@Injectable()
@ComputeJobHandler('advice')
class Adviser extends Planner {}

@Injectable()
@ComputeJobHandler('what-if')
class Supposer extends Planner {}

@Injectable()
@ComputeJobHandler('care-odds')
class CareWeigher extends Planner {}

@Module({})
class RoomOfHandlers {
  static with(...providers: Type[]): DynamicModule {
    return {
      module: RoomOfHandlers,
      providers: [...providers, TimberTable, Forecaster, Adviser, Supposer, CareWeigher],
    };
  }
}

const redisUrl = process.env['TEST_REDIS_URL'] ?? process.env['REDIS_URL'];
const queues = redisUrl ? ['in process', 'redis'] : ['in process'];
if (!redisUrl && process.env['REQUIRE_ALL'] === '1') throw new Error('TEST_REDIS_URL is missing');
const yard = 'organisation_1';

const places = scratchKinds().flatMap((kind) => queues.map((queue) => ({ kind, queue })));

describe.each(places)('a computation on $kind, nudged $queue', ({ kind, queue }) => {
  let place: Awaited<ReturnType<typeof scratchPlace>>;
  let prefix: string;
  const running = new Set<INestApplicationContext>();

  async function start(
    handlers: Type[] = [Planner],
    computing: 'run' | 'ask' = 'run',
  ): Promise<{
    app: INestApplicationContext;
    database: Database;
    planner: Planner;
    stop: () => Promise<void>;
  }> {
    const config = Config.read({
      DATA_DIR: place.dataDir,
      DATABASE_URL: place.databaseUrl ?? '',
      REDIS_URL: queue === 'redis' ? redisUrl : '',
      REDIS_PREFIX: prefix,
    });
    const schema = { entities: platformEntities, migrations: platformMigrations };
    @Module({
      imports: [PlatformModule.forRoot({ config, schema, computing }), RoomOfHandlers.with(...handlers)],
    })
    class App {}
    const app = await NestFactory.createApplicationContext(App, { logger: false, abortOnError: false });
    running.add(app);
    return {
      app,
      database: app.get(Database),
      planner: handlers.length > 0 ? app.get(Planner) : new Planner(),
      stop: async () => {
        running.delete(app);
        await app.close();
      },
    };
  }

  const ask = (app: INestApplicationContext, why = 'an edit'): Promise<ComputeJob> =>
    app.get(Database).write((manager) => app.get(Revisions).requestPlan(manager, yard, why));
  const jobs = (app: INestApplicationContext): Promise<ComputeJob[]> =>
    app.get(Database).read.find(ComputeJob, { order: { askedAt: 'ASC', id: 'ASC' } });

  async function until(what: () => Promise<boolean> | boolean, millis = 12_000): Promise<void> {
    const end = Date.now() + millis;
    while (!(await what())) {
      if (Date.now() > end) throw new Error('waited in vain');
      await pause(25);
    }
  }
  const allSettled = (app: INestApplicationContext) => async (): Promise<boolean> =>
    (await jobs(app)).every((job) => job.state === 'done' || job.state === 'failed');

  beforeEach(async () => {
    place = await scratchPlace(kind);
    prefix = newId('test').replace('_', '-');
  });
  afterEach(async () => {
    for (const app of running) await app.close();
    running.clear();
    await place.remove();
  });

  it('is made once, of the newest state, after ten edits in a row', async () => {
    const { app, planner } = await start();
    for (let edit = 1; edit <= 10; edit++) await ask(app, `edit ${edit}`);
    await until(allSettled(app));
    expect(planner.asked).toEqual([10]);
    expect(await jobs(app)).toMatchObject([{ state: 'done', revision: 10, why: 'edit 10', tries: 1 }]);
  });

  it('is not asked for by an edit that was undone', async () => {
    const { app, planner, database } = await start();
    const undone = database.write(async (manager) => {
      await app.get(Revisions).requestPlan(manager, yard, 'an edit');
      throw new Error('undone');
    });
    await expect(undone).rejects.toThrow('undone');
    await pause(600);
    expect(planner.asked).toEqual([]);
    expect(await jobs(app)).toEqual([]);
  });

  it('is found and made by the next process when the first one dies before it begins', async () => {
    const first = await start([], 'ask');
    await ask(first.app);
    await first.stop();
    const second = await start();
    await until(allSettled(second.app));
    expect(second.planner.asked).toEqual([1]);
  });

  it('is made again when its run has fallen silent, and the silent one can publish nothing', async () => {
    const { app, database, planner } = await start();
    let isStuck = true;
    let late: Promise<unknown> = Promise.resolve();
    planner.act = async (_task, control) => {
      if (planner.asked.length > 1) return;
      // As if this process had been frozen: another has taken the job over when it wakes up.
      await database.write((manager) =>
        manager.update(ComputeJob, { state: 'running' }, { leaseUntil: 1, runId: 'run_other' }),
      );
      late = control.publish((manager) => manager.query('DELETE FROM revision'));
      await late.catch(() => undefined);
      isStuck = false;
    };
    await ask(app);
    await until(() => !isStuck);
    await expect(late).rejects.toThrow(RunLostError);
    expect(await app.get(Revisions).current(database.read, yard)).toBe(1);
    await until(allSettled(app));
    expect(planner.asked).toEqual([1, 1]);
  });

  it('is tried again after a fault, and gives up after its last try without showing the fault', async () => {
    const { app, planner } = await start();
    planner.act = () => Promise.reject(new Error('secret detail'));
    await ask(app);
    await until(allSettled(app), 25_000);
    const [job] = await jobs(app);
    expect(planner.asked).toEqual([1, 1, 1]);
    expect(job).toMatchObject({ state: 'failed', tries: 3 });
    expect(job.message).toMatch(/log has it under fault_/);
    expect(job.message).not.toContain('secret');
  });

  it('is not tried again when another try would end the same way', async () => {
    const { app, planner } = await start();
    planner.act = () => Promise.reject(new GiveUp('There is no haul-out.'));
    await ask(app);
    await until(allSettled(app));
    expect(planner.asked).toEqual([1]);
    expect(await jobs(app)).toMatchObject([{ state: 'failed', message: 'There is no haul-out.' }]);
  });

  it('gives way to a newer request', async () => {
    const { app, planner } = await start();
    planner.act = async (task, control) => {
      if (task.revision > 1) return;
      await until(() => control.shouldStop());
      throw new Stopped();
    };
    await ask(app);
    await until(() => planner.asked.length === 1);
    await ask(app);
    await until(async () => (await jobs(app)).length === 2 && (await allSettled(app)()));
    expect(planner.asked).toEqual([1, 2]);
    expect(await jobs(app)).toMatchObject([
      { message: 'A newer request took its place.' },
      { message: null },
    ]);
  });

  it('is put back when the process goes down in good order, and the next one makes it', async () => {
    const first = await start();
    first.planner.act = async (_task, control) => {
      await until(() => control.shouldStop());
      throw new Stopped();
    };
    await ask(first.app);
    await until(() => first.planner.asked.length === 1);
    await first.stop();
    const second = await start();
    await until(allSettled(second.app));
    expect(await jobs(second.app)).toMatchObject([{ state: 'done', tries: 1 }]);
  });

  const whereThereIsAQueue = queue === 'redis' ? it : (): void => undefined;
  whereThereIsAQueue('is made although the queue has lost everything', async () => {
    const { app, planner } = await start();
    await ask(app);
    await pause(100);
    const redis = connectRedis(redisUrl ?? '', 'retry for ever');
    const lost = await redis.keys(`${prefix}:*`);
    expect(lost.length).toBeGreaterThan(0);
    await redis.del(lost);
    redis.disconnect();
    await until(allSettled(app));
    expect(planner.asked).toEqual([1]);
  });

  it('has exactly one handler, or the server does not start', async () => {
    await expect(start([])).rejects.toThrow('the computing job "plan" has no handlers');
    await expect(start([Planner, SecondPlanner])).rejects.toThrow('has 2 handlers');
    // A process that only asks needs none.
    await expect(start([], 'ask')).resolves.toBeDefined();
  });
});
