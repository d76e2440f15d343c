import { Audit, AuditEntry, type Caller, Organisation, permit } from '@ribband/access';
import { Availability, Cards, YardDay } from '@ribband/crew';
import { Database, refuse } from '@ribband/platform';
import { Links, Marks, Tasks } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { staffRoles } from '../../plans/plans.service.js';
import { allTroubles } from './all-troubles.js';
import type { Trouble } from './trouble.js';

/** Troubles that can be played on the demo yard, through the services that people use. */
@Injectable()
export class Troubles {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Tasks) private readonly tasks: Tasks,
    @Inject(Links) private readonly links: Links,
    @Inject(Availability) private readonly availability: Availability,
    @Inject(Cards) private readonly cards: Cards,
    @Inject(Marks) private readonly marks: Marks,
  ) {}

  /** @returns none at a real yard */
  async list(caller: Caller): Promise<(Trouble & { wasPlayed: boolean })[]> {
    permit(caller, ...staffRoles);
    if (!(await this.isDemo(caller))) return [];
    const { organisationId } = caller;
    const played = await this.database.read.findBy(AuditEntry, { organisationId, operation: 'playTrouble' });
    const keys = new Set(played.map(({ facts }) => (facts as { key?: string }).key));
    return allTroubles.map((trouble) => ({ ...trouble, wasPlayed: keys.has(trouble.key) }));
  }

  async play(caller: Caller, key: string): Promise<Trouble> {
    permit(caller, ...staffRoles);
    if (!(await this.isDemo(caller))) refuse('DEMO_ONLY', 'Troubles are played at the demo yard only.');
    const trouble = allTroubles.find((one) => one.key === key);
    if (!trouble) return refuse('NOT_FOUND', 'There is no such trouble.', { field: 'key' });
    const { tasks, links, availability, cards, marks } = this;
    const today = await this.yardDay.today(caller.organisationId);
    await trouble.play({ read: this.database.read, tasks, links, availability, cards, marks }, caller, today);
    await this.database.write((manager) =>
      this.audit.note(manager, caller, 'playTrouble', null, { key, words: trouble.reason }),
    );
    return trouble;
  }

  private async isDemo({ organisationId }: Caller): Promise<boolean> {
    const { isDemo } = await this.database.read.findOneByOrFail(Organisation, { id: organisationId });
    return isDemo;
  }
}
