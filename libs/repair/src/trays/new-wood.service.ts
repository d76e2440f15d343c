import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { settledFindings } from '../survey/settled.js';
import { SurveyRecord } from '../survey/survey.entity.js';
import { HoleBook } from './hole-book.service.js';

/** Conditions of which new wood comes, whole or in part. */
const renewing: ReadonlySet<string> = new Set(['renew', 'new joint', 'scarf']);

/** The frame pieces that are renewed: nails get new holes in them, whatever became of the old ones. */
@Injectable()
export class NewWood {
  constructor(@Inject(HoleBook) private readonly holes: HoleBook) {}

  /** Keys of the pieces that the survey has renewed, as a whole or in part. */
  async of(manager: EntityManager, organisationId: string): Promise<ReadonlySet<string>> {
    const haulOut = await haulOutInForce(manager, organisationId);
    const hull = await this.holes.hullOf(manager, organisationId);
    const record = haulOut && (await manager.findOneBy(SurveyRecord, { haulOutId: haulOut.id }));
    if (!hull || !record) return new Set();
    return new Set(
      settledFindings(hull, record.survey)
        .filter(({ finding }) => renewing.has(finding.condition))
        .map(({ element }) => element),
    );
  }
}
