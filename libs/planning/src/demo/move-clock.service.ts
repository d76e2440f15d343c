import { Audit, type Caller, Organisation, permit } from '@ribband/access';
import { Database, instantToText, refuse, Revisions, YardClock } from '@ribband/platform';
import { HaulOut } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';

/** Moves the demo's clock, so that its weeks can be played through. */
@Injectable()
export class MoveClock {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /** @returns the organisation as it stands after */
  async to(caller: Caller, instant: number): Promise<Organisation> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const organisation = await manager.findOneByOrFail(Organisation, { id: organisationId });
      if (!organisation.isDemo)
        refuse('DEMO_ONLY', 'Only the demo yard’s clock can be moved: this yard goes by the real time.');
      const haulOut = await manager.findOne(HaulOut, { where: { organisationId }, order: { id: 'DESC' } });
      const earliest = haulOut ? Date.parse(`${haulOut.hauledOutOn}T00:00:00Z`) - 400 * dayMillis : 0;
      if (haulOut && (instant < earliest || instant > earliest + 4000 * dayMillis))
        refuse('BAD_INPUT', 'That is years away from the haul-out.', {
          field: 'to',
          remedy: `Choose a time near ${haulOut.hauledOutOn}.`,
        });
      await this.clock.set(manager, organisationId, instant);
      await this.audit.note(manager, caller, 'moveYardClock', organisationId, { to: instantToText(instant) });
      await this.revisions.requestPlan(manager, organisationId, 'the yard clock was moved');
      return organisation;
    });
  }
}

const dayMillis = 86_400_000;
