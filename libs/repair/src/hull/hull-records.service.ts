import type { Caller } from '@ribband/access';
import { buildHull, type Hull, type HullOutline } from '@ribband/hull';
import { Database } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { HullRecord } from './hull.entity.js';

/** How many built hulls are kept ready. */
const mostKept = 20;

/** The outline of the hull ashore, and the hull that it makes. */
@Injectable()
export class HullRecords {
  /** By the outline itself: a version may be that of a change which was never committed. */
  private readonly built = new Map<string, Hull>();

  constructor(@Inject(Database) private readonly database: Database) {}

  recordOf(read: EntityManager, haulOutId: string): Promise<HullRecord | null> {
    return read.findOneBy(HullRecord, { haulOutId });
  }

  /** Null before somebody has entered it. */
  async outlineOf(read: EntityManager, haulOutId: string): Promise<HullOutline | null> {
    return (await this.recordOf(read, haulOutId))?.outline ?? null;
  }

  /** The hull with every element named; null before its outline was entered. */
  async hullOf(read: EntityManager, haulOutId: string): Promise<Hull | null> {
    const record = await this.recordOf(read, haulOutId);
    return record && this.build(record);
  }

  /** The outline of the haul-out in force. */
  async inForce(caller: Caller): Promise<HullRecord | null> {
    const haulOut = await haulOutInForce(this.database.read, caller.organisationId);
    return haulOut && this.recordOf(this.database.read, haulOut.id);
  }

  /** The hull of a record. */
  build(record: HullRecord): Hull {
    const key = JSON.stringify(record.outline);
    const known = this.built.get(key);
    if (known) return known;
    const hull = buildHull(record.outline);
    const [oldest] = this.built.keys();
    if (oldest !== undefined && this.built.size >= mostKept) this.built.delete(oldest);
    this.built.set(key, hull);
    return hull;
  }
}
