import { Inject, Injectable } from '@nestjs/common';
import { newId, RealClock } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import type { Caller } from '../caller.js';
import { AuditEntry } from './audit-entry.entity.js';

/** Notes who did what, in the transaction that did it. */
@Injectable()
export class Audit {
  constructor(@Inject(RealClock) private readonly clock: RealClock) {}

  /**
   * @param operation the name of the operation, such as `takePlace`
   * @param subjectId what it was done to
   * @param facts what else one will want to know; no secrets, nothing about other people
   */
  async note(
    manager: EntityManager,
    caller: Pick<Caller, 'organisationId' | 'name'> & { accountId: string | null },
    operation: string,
    subjectId: string | null,
    facts: Record<string, unknown> = {},
  ): Promise<void> {
    await manager.insert(AuditEntry, {
      id: newId('audit'),
      organisationId: caller.organisationId,
      at: this.clock.now(),
      accountId: caller.accountId,
      who: caller.name,
      operation,
      subjectId,
      facts,
    });
  }
}
