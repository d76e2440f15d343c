import { Audit, permit, type Caller } from '@ribband/access';
import {
  checkOffsets,
  futtockPatterns,
  inches,
  type FuttockPattern,
  type Offsets,
  offsetsOfModel,
  pieceOf,
  unfairReadings,
} from '@ribband/hull';
import { Database, expectVersion, newId, RealClock, refuse } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { besideOf } from './sisters.js';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { HullRecords } from '../hull/hull-records.service.js';
import { refusingAs } from '../hull/hull-refusals.js';
import { HullShape, type MeasuredShape } from './hull-shape.entity.js';
import { readShape } from './read-shape.js';

/** Her shape as it was measured, and the full-size patterns that follow from it. */
@Injectable()
export class Shapes {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(HullRecords) private readonly hulls: HullRecords,
  ) {}

  recordOf(read: EntityManager, haulOutId: string): Promise<HullShape | null> {
    return read.findOneBy(HullShape, { haulOutId });
  }

  /** Offsets at full size; null before she was measured. */
  async offsetsOf(
    read: EntityManager,
    haulOutId: string,
  ): Promise<{ offsets: Offsets; version: number } | null> {
    const record = await this.recordOf(read, haulOutId);
    return (
      record && { offsets: refusingAs('shape', () => fullSize(record.measured)), version: record.version }
    );
  }

  async inForce(caller: Caller): Promise<HullShape | null> {
    const haulOut = await haulOutInForce(this.database.read, caller.organisationId);
    return haulOut && this.recordOf(this.database.read, haulOut.id);
  }

  /** Readings that stand out from their neighbours, in words: misread, or a real bump. */
  unfair(record: HullShape): string[] {
    const offsets = fullSize(record.measured);
    return unfairReadings(offsets, ALLOWED).map(({ section, share, off }) => {
      const where = Math.round(100 * share);
      return `Section ${section + 1}, ${where} percent of the way up, lies ${Math.round(off)} mm off its neighbours.`;
    });
  }

  /**
   * Enters the measured shape, or puts another in its place.
   * @param version the version that was read, or null when there was none
   */
  async enter(caller: Caller, value: unknown, version: number | null): Promise<HullShape> {
    permit(caller, 'shipwright');
    const { organisationId } = caller;
    const measured = readShape(value, 'shape');
    refusingAs('shape', () => fullSize(measured));
    return this.database.write(async (manager) => {
      const haulOut =
        (await haulOutInForce(manager, organisationId)) ??
        refuse('NOT_FOUND', 'No haul-out has been entered yet.', { remedy: 'Read a yard in first.' });
      const old = await this.recordOf(manager, haulOut.id);
      expectVersion({ version: old?.version ?? 0 }, version ?? 0);
      const record: HullShape = {
        id: old?.id ?? newId('shape'),
        organisationId,
        haulOutId: haulOut.id,
        version: (old?.version ?? 0) + 1,
        measured,
        keptBy: caller.name,
        keptAt: this.clock.now(),
      };
      await manager.save(HullShape, record);
      await this.audit.note(manager, caller, 'setHullShape', record.id, { version: record.version });
      return record;
    });
  }

  /** The full-size pattern of one frame piece. */
  async pattern(caller: Caller, piece: string): Promise<FuttockPattern> {
    const read = this.database.read;
    const haulOut = await haulOutInForce(read, caller.organisationId);
    const hull = haulOut && (await this.hulls.hullOf(read, haulOut.id));
    const shape = haulOut && (await this.offsetsOf(read, haulOut.id));
    if (!hull || !shape)
      return refuse('TASK_NOT_READY', 'There is no measured shape to take a pattern from.', {
        remedy: 'Enter her outline, then her offsets or a measured half model.',
      });
    return refusingAs(null, () => {
      const [pattern] = futtockPatterns(hull, shape.offsets, [{ piece: pieceOf(hull, besideOf(piece)) }]);
      return pattern as FuttockPattern;
    });
  }
}

/** A reading this far off the curve of the others is to be measured again. Common practice: half an inch. */
const ALLOWED = inches(0.5);

function fullSize(measured: MeasuredShape): Offsets {
  if (measured.by === 'half model') return offsetsOfModel(measured);
  checkOffsets(measured);
  return measured;
}
