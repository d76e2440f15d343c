import { cp } from 'node:fs/promises';
import { setTimeout as pause } from 'node:timers/promises';
import { type Caller, Organisations } from '@ribband/access';
import { idsByRef, Volunteer } from '@ribband/crew';
import {
  ComputeJob,
  type Computing,
  Config,
  Database,
  type DatabaseKind,
  localToInstant,
  newId,
  PlatformModule,
  type RefusalCode,
  RefusalError,
  scratchPlace,
  YardClock,
} from '@ribband/platform';
import type { INestApplicationContext } from '@nestjs/common';
import { NestFactory } from '@nestjs/core';
import { Module } from '@nestjs/common';
import { rooms, schema } from './house.js';

/** All rooms in one process over a scratch database, without HTTP: as in the worker. */
export class TestHouse {
  organisationId = '';
  readonly apps: INestApplicationContext[] = [];

  private constructor(private readonly place: Awaited<ReturnType<typeof scratchPlace>>) {}

  /** An empty yard whose clock stands at the small yard's haul-out. */
  static async open(kind: DatabaseKind, computing: Computing = 'run', settings: Record<string, string> = {}) {
    const house = new TestHouse(await scratchPlace(kind));
    const app = await house.start(computing, settings);
    await app.get(Database).write(async (manager) => {
      const yard = { name: 'The Test Yard', units: 'metric', crewOddsWish: 0.8, isDemo: true } as const;
      const { id } = await app.get(Organisations).found(manager, yard);
      house.organisationId = id;
      const standsAt = localToInstant('2027-03-06', '07:00', 'America/Los_Angeles');
      await app.get(YardClock).set(manager, id, standsAt);
    });
    return house;
  }

  /** Another house that begins as this one stands, nothing being computed (SQLite only). */
  async fork(): Promise<TestHouse> {
    const other = new TestHouse(await scratchPlace('sqlite'));
    await cp(this.place.dataDir, other.place.dataDir, { recursive: true });
    other.organisationId = this.organisationId;
    await other.start('run');
    return other;
  }

  /** One more process on the same database (PostgreSQL only). */
  async start(computing: Computing, settings: Record<string, string> = {}): Promise<INestApplicationContext> {
    const config = Config.read({
      DATA_DIR: this.place.dataDir,
      DATABASE_URL: this.place.databaseUrl ?? '',
      ...settings,
    });
    @Module({
      imports: [PlatformModule.forRoot({ config, schema, computing }), ...rooms],
    })
    class House {}
    const app = await NestFactory.createApplicationContext(House, { logger: false, abortOnError: false });
    this.apps.push(app);
    return app;
  }

  get app(): INestApplicationContext {
    return this.apps[0];
  }

  get database(): Database {
    return this.app.get(Database);
  }

  caller(role: Caller['role'], volunteerId: string | null = null): Caller {
    return {
      accountId: newId('account'),
      name: `the ${role}`,
      organisationId: this.organisationId,
      role,
      volunteerId,
    };
  }

  async volunteer(ref: string): Promise<Caller> {
    const ids = await idsByRef(this.database.read, Volunteer, this.organisationId);
    return this.caller('volunteer', ids.get(ref) ?? null);
  }

  /**
   * Waits until nothing is left to compute, or nothing of some names.
   * @returns the computations of plans
   */
  async settled(millis = 20_000, names: readonly string[] | null = null): Promise<ComputeJob[]> {
    const end = Date.now() + millis;
    for (;;) {
      const jobs = await this.database.read.find(ComputeJob, { order: { id: 'ASC' } });
      const awaited = jobs.filter(({ name }) => names === null || names.includes(name));
      if (awaited.every((job) => job.state === 'done' || job.state === 'failed'))
        return jobs.filter((job) => job.name === 'plan');
      if (Date.now() > end) throw new Error(`Still computing: ${JSON.stringify(jobs)}`);
      await pause(50);
    }
  }

  async close(): Promise<void> {
    for (const app of this.apps) await app.close();
    await this.place.remove();
  }
}

/** The code and field of the refusal, or 'yes'. */
export async function answer(
  work: Promise<unknown>,
): Promise<RefusalCode | `${RefusalCode} ${string}` | 'yes'> {
  try {
    await work;
    return 'yes';
  } catch (error) {
    if (!(error instanceof RefusalError)) throw error;
    const { code, field } = error.refusal;
    return field ? `${code} ${field}` : code;
  }
}
