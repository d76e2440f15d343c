import { Inject, Injectable } from '@nestjs/common';
import { Database, newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import type { Caller } from '../caller.js';
import { Organisation, type UnitSystem } from './organisation.entity.js';

/** The yards that this server keeps. */
@Injectable()
export class Organisations {
  constructor(@Inject(Database) private readonly database: Database) {}

  /** The caller's own. */
  own(caller: Caller): Promise<Organisation> {
    return this.database.read.findOneByOrFail(Organisation, { id: caller.organisationId });
  }

  /** Whether there is any yard at all. */
  async isAnyThere(): Promise<boolean> {
    return (await this.database.read.count(Organisation, { take: 1 })) > 0;
  }

  /** Founds a yard. */
  async found(
    manager: EntityManager,
    wanted: { name: string; units: UnitSystem; crewOddsWish: number; isDemo: boolean },
  ): Promise<Organisation> {
    const organisation = Object.assign(new Organisation(), {
      id: newId('organisation'),
      version: 1,
      ...wanted,
    });
    await manager.insert(Organisation, organisation);
    return organisation;
  }
}
