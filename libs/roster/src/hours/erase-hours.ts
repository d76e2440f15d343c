import type { EntityManager } from 'typeorm';
import { GrantEntity } from './grant.entity.js';
import { GrantReportEntity, HourClaimEntity } from './grant-report.entity.js';
import { HourEntryEntity } from './hour-entry.entity.js';
import { HourPeriodEntity } from './hour-period.entity.js';
import { HourRateEntity } from './hour-rate.entity.js';
import { WorkKindEntity } from './work-kind.entity.js';

/** Takes the whole hours book of an organisation out of the records. */
export async function eraseHours(manager: EntityManager, organisationId: string): Promise<void> {
  const inOrder = [
    HourClaimEntity,
    GrantReportEntity,
    HourRateEntity,
    HourEntryEntity,
    HourPeriodEntity,
    GrantEntity,
    WorkKindEntity,
  ];
  for (const entity of inOrder) await manager.delete(entity, { organisationId });
}
