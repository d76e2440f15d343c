import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { Database } from '../database/database.js';
import { RealClock } from './real-clock.js';
import { YardClockRow } from './yard-clock.entity.js';

/**
 * What time it is at a yard, for everything about planning. It is the real time, unless the yard's clock was made
 * to stand (the demo's stands at its haul-out day until somebody moves it).
 */
@Injectable()
export class YardClock {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly realClock: RealClock,
  ) {}

  /**
   * Epoch milliseconds.
   * @param manager give it inside a write
   */
  async now(organisationId: string, manager: EntityManager = this.database.read): Promise<number> {
    const row = await manager.findOneBy(YardClockRow, { organisationId });
    return row?.standsAt ?? this.realClock.now();
  }

  /** Makes the yard's clock stand at an instant, or run with the real one again (null). */
  async set(manager: EntityManager, organisationId: string, standsAt: number | null): Promise<void> {
    if (standsAt === null) await manager.delete(YardClockRow, { organisationId });
    else await manager.upsert(YardClockRow, { organisationId, standsAt }, ['organisationId']);
  }
}
