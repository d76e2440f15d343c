import { instantToLocal, Messages } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull, type EntityManager } from 'typeorm';
import { isMinor } from '../gates/age-gates.js';
import { volunteerOf } from '../volunteers/volunteers.service.js';
import { YardDay } from '../yard/yard-day.js';
import { GuardianConsent } from './consent.entity.js';
import { cameWords, leftWords } from './family-words.js';

/** Tells parents that somebody under 18 came and left. */
@Injectable()
export class FamilyNews {
  constructor(
    @Inject(Messages) private readonly messages: Messages,
    @Inject(YardDay) private readonly yardDay: YardDay,
  ) {}

  /**
   * To be called in the transaction that notes it; adults are passed over, and the same coming or leaving is told once.
   * @param at epoch milliseconds by the yard clock
   */
  async tell(
    manager: EntityManager,
    organisationId: string,
    seen: { volunteerId: string; turnoutId: string; what: 'came' | 'left'; at: number },
  ): Promise<void> {
    const { volunteerId, turnoutId, what, at } = seen;
    const zone = await this.yardDay.zone(organisationId, manager);
    const local = instantToLocal(at, zone);
    const volunteer = await volunteerOf(manager, organisationId, volunteerId);
    if (!isMinor(volunteer, local.day)) return;
    const parents = await manager.findBy(GuardianConsent, {
      organisationId,
      volunteerId,
      withdrawnOn: IsNull(),
    });
    // A parent with several yeses on record is told once: by the first that has an address.
    const byAddress = new Map(parents.map((one) => [one.guardianEmail ?? one.id, one.id]));
    await this.messages.post(manager, {
      organisationId,
      to: [volunteerId, ...byAddress.values()],
      kind: 'minor-came-and-left',
      key: `${what} ${turnoutId} ${volunteerId}`,
      evenAtNight: true,
      ...(what === 'came' ? cameWords(volunteer.name, local.time) : leftWords(volunteer.name, local.time)),
    });
  }
}
