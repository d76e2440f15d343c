import { Audit, permit, type Caller } from '@ribband/access';
import { buildHull, type Hull, type HullOutline } from '@ribband/hull';
import { Database, expectVersion, newId, RealClock, refuse } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { refusingAs } from './hull-refusals.js';
import { HullRecord } from './hull.entity.js';
import { readOutline } from './read-outline.js';

/** How many built hulls are kept ready. */
const mostKept = 20;

/** The outline of the hull ashore, and the hull that it makes. */
@Injectable()
export class HullRecords {
  /** By record and version: a hull is built once for each change of its outline. */
  private readonly built = new Map<string, Hull>();

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RealClock) private readonly clock: RealClock,
  ) {}

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

  /**
   * Enters the outline, or puts another in its place.
   * @param version the version that was read, or null when there was none
   * @throws RefusalError BAD_INPUT naming the field at which the outline contradicts itself
   */
  async enter(caller: Caller, value: unknown, version: number | null): Promise<HullRecord> {
    permit(caller, 'shipwright', 'director');
    const { organisationId } = caller;
    const outline = readOutline(value, 'outline');
    refusingAs('outline', () => buildHull(outline));
    return this.database.write(async (manager) => {
      const haulOut =
        (await haulOutInForce(manager, organisationId)) ??
        refuse('NOT_FOUND', 'No haul-out has been entered yet.', { remedy: 'Read a yard in first.' });
      const old = await this.recordOf(manager, haulOut.id);
      expectVersion({ version: old?.version ?? 0 }, version ?? 0);
      const record: HullRecord = {
        id: old?.id ?? newId('hull'),
        organisationId,
        haulOutId: haulOut.id,
        version: (old?.version ?? 0) + 1,
        outline,
        changedBy: caller.name,
        changedAt: this.clock.now(),
      };
      await manager.save(HullRecord, record);
      await this.audit.note(manager, caller, 'setHullOutline', record.id, { version: record.version });
      return record;
    });
  }

  /** The hull of a record. */
  build(record: HullRecord): Hull {
    const key = `${record.id} ${record.version}`;
    const known = this.built.get(key);
    if (known) return known;
    const hull = buildHull(record.outline);
    const [oldest] = this.built.keys();
    if (oldest !== undefined && this.built.size >= mostKept) this.built.delete(oldest);
    this.built.set(key, hull);
    return hull;
  }
}
