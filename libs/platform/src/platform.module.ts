import { type DynamicModule, Global, Inject, Module, type OnApplicationShutdown } from '@nestjs/common';
import { APP_INTERCEPTOR } from '@nestjs/core';
import { Bus } from './bus/bus.js';
import { RealClock } from './clock/real-clock.js';
import { YardClock } from './clock/yard-clock.js';
import { NoNudges, Nudges } from './computing/nudges.js';
import { Revisions } from './computing/revisions.js';
import { Config } from './config/config.js';
import { Database } from './database/database.js';
import { RefusalInterceptor } from './refusal/refusal.interceptor.js';
import type { Schema } from './database/store.js';

/** What every room may rely on, for the whole process. */
@Global()
@Module({})
export class PlatformModule implements OnApplicationShutdown {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Bus) private readonly bus: Bus,
  ) {}

  static forRoot(options: { config: Config; schema: Schema }): DynamicModule {
    return {
      module: PlatformModule,
      providers: [
        { provide: Config, useValue: options.config },
        { provide: Database, useFactory: () => Database.open(options.config, options.schema) },
        { provide: Bus, useFactory: () => new Bus() },
        { provide: Nudges, useClass: NoNudges },
        { provide: APP_INTERCEPTOR, useClass: RefusalInterceptor },
        RealClock,
        YardClock,
        Revisions,
      ],
      exports: [Config, Database, Bus, RealClock, YardClock, Revisions],
    };
  }

  async onApplicationShutdown(): Promise<void> {
    this.bus.close();
    await this.database.close();
  }
}
