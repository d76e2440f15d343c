import { Inject, Injectable } from '@nestjs/common';
import { Database, instantToLocal, YardClock } from '@ribband/platform';
import type { EntityManager } from 'typeorm';

/** Finds the time zone of an organisation's yard; null before it has a haul-out. */
export type ZoneOf = (manager: EntityManager, organisationId: string) => Promise<string | null>;

/**
 * What day it is at the yard. The zone is kept with the haul-out, in a room above this one, which hands over how to
 * find it when it starts. A yard without a haul-out reads its days in UTC.
 */
@Injectable()
export class YardDay {
  private zoneOf: ZoneOf | null = null;

  constructor(
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Database) private readonly database: Database,
  ) {}

  /** Called once, by the room that keeps the haul-out. */
  connect(zoneOf: ZoneOf): void {
    if (this.zoneOf) throw new Error('The yard’s time zone is kept by two rooms');
    this.zoneOf = zoneOf;
  }

  /** @param manager give it inside a write */
  async zone(organisationId: string, manager: EntityManager = this.database.read): Promise<string> {
    if (!this.zoneOf)
      throw new Error('No room has said where the yard’s time zone is kept (YardDay.connect)');
    return (await this.zoneOf(manager, organisationId)) ?? 'UTC';
  }

  /** The local day, 'YYYY-MM-DD', by the yard clock. */
  async today(organisationId: string, manager: EntityManager = this.database.read): Promise<string> {
    const now = await this.clock.now(organisationId, manager);
    return instantToLocal(now, await this.zone(organisationId, manager)).day;
  }
}
