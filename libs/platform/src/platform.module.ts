import {
  type DynamicModule,
  Global,
  Inject,
  Module,
  type BeforeApplicationShutdown,
  type OnApplicationBootstrap,
  type OnApplicationShutdown,
} from '@nestjs/common';
import { APP_INTERCEPTOR, DiscoveryModule } from '@nestjs/core';
import { Bus } from './bus/bus.js';
import { connectRedis } from './redis/redis.js';
import { RealClock } from './clock/real-clock.js';
import { YardClock } from './clock/yard-clock.js';
import { BullNudges } from './computing/bull-nudges.js';
import { ComputeHandlers } from './computing/handlers.js';
import { LocalNudges } from './computing/local-nudges.js';
import { NoNudges, Nudges } from './computing/nudges.js';
import { Revisions } from './computing/revisions.js';
import { ComputeRunner } from './computing/runner.js';
import { Config } from './config/config.js';
import { Database } from './database/database.js';
import type { Schema } from './database/store.js';
import { Health } from './health/health.js';
import { Messages } from './outbox/messages.js';
import { Postman } from './outbox/postman.js';
import { Recipients } from './outbox/recipients.js';
import { RefusalInterceptor } from './refusal/refusal.interceptor.js';

/** Whether this process runs computing jobs, or only asks for them. */
export type Computing = 'run' | 'ask';

const computing = Symbol('computing');

/** What every room may rely on, for the whole process. */
@Global()
@Module({})
export class PlatformModule
  implements OnApplicationBootstrap, BeforeApplicationShutdown, OnApplicationShutdown
{
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(Nudges) private readonly nudges: Nudges,
    @Inject(ComputeHandlers) private readonly handlers: ComputeHandlers,
    @Inject(Postman) private readonly postman: Postman,
    @Inject(computing) private readonly computing: Computing,
  ) {}

  static forRoot(options: { config: Config; schema: Schema; computing?: Computing }): DynamicModule {
    const { config } = options;
    const mode = options.computing ?? 'ask';
    return {
      module: PlatformModule,
      imports: [DiscoveryModule],
      providers: [
        { provide: Config, useValue: config },
        { provide: computing, useValue: mode },
        { provide: Database, useFactory: () => Database.open(config, options.schema) },
        { provide: Bus, useFactory: () => openBus(config) },
        {
          provide: Nudges,
          useFactory: (database: Database, clock: RealClock, runner: ComputeRunner) =>
            chooseNudges(config, mode, database, clock, runner),
          inject: [Database, RealClock, ComputeRunner],
        },
        { provide: APP_INTERCEPTOR, useClass: RefusalInterceptor },
        ComputeHandlers,
        ComputeRunner,
        Health,
        Messages,
        Postman,
        RealClock,
        Recipients,
        Revisions,
        YardClock,
      ],
      exports: [
        Config,
        Database,
        Bus,
        Health,
        Messages,
        Postman,
        RealClock,
        Recipients,
        Revisions,
        YardClock,
      ],
    };
  }

  async onApplicationBootstrap(): Promise<void> {
    try {
      if (this.computing === 'run') this.handlers.collect();
      await this.nudges.start();
      if (this.computing === 'run') this.postman.start();
    } catch (error) {
      // A start that is refused leaves nothing open.
      await this.beforeApplicationShutdown();
      await this.onApplicationShutdown();
      throw error;
    }
  }

  async beforeApplicationShutdown(): Promise<void> {
    // Ends subscriptions and computing first, so that the server can close its connections.
    this.bus.close();
    await this.postman.close();
    await this.nudges.close();
  }

  async onApplicationShutdown(): Promise<void> {
    this.bus.disconnect();
    await this.database.close();
  }
}

function openBus(config: Config): Bus {
  if (!config.redisUrl) return new Bus();
  return new Bus({
    channel: `${config.redisPrefix}:news`,
    send: connectRedis(config.redisUrl, 'fail fast'),
    receive: connectRedis(config.redisUrl, 'retry for ever'),
  });
}

function chooseNudges(
  config: Config,
  mode: Computing,
  database: Database,
  clock: RealClock,
  runner: ComputeRunner,
): Nudges {
  if (config.redisUrl) {
    return new BullNudges(
      { url: config.redisUrl, prefix: config.redisPrefix },
      database,
      clock,
      mode === 'run' ? runner : null,
    );
  }
  return mode === 'run' ? new LocalNudges(database, clock, runner) : new NoNudges();
}
