import { Message, MessageChoice, newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { GuardianConsent } from '../consent/consent.entity.js';
import type { Volunteer } from '../volunteers/volunteer.entity.js';
import { PhoneEntity } from '../phones/phone.entity.js';
import { PersonWish } from '../wishes/wish.entity.js';
import type { VolunteerDocument } from './crew-document.js';
import { insertAll } from './refs.js';

/** What is kept by person and follows them through a new reading of the document; of those who are gone it goes too. */
export async function handOverWishes(
  manager: EntityManager,
  organisationId: string,
  formerIds: ReadonlyMap<string, string>,
  volunteers: readonly Volunteer[],
): Promise<void> {
  const nowIds = new Map(volunteers.map((one) => [one.ref, one.id]));
  for (const [ref, volunteerId] of formerIds) {
    const nowId = nowIds.get(ref);
    const mine = { organisationId, volunteerId };
    const told = { organisationId, recipientId: volunteerId };
    if (nowId === undefined) {
      for (const entity of [PersonWish, GuardianConsent, PhoneEntity]) await manager.delete(entity, mine);
      for (const entity of [Message, MessageChoice]) await manager.delete(entity, told);
    } else {
      for (const entity of [PersonWish, GuardianConsent, PhoneEntity])
        await manager.update(entity, mine, { volunteerId: nowId });
      for (const entity of [Message, MessageChoice])
        await manager.update(entity, told, { recipientId: nowId });
    }
  }
}

/** Writes what the document says of somebody; a document that is silent leaves what is there. */
export async function writeWishes(
  manager: EntityManager,
  owner: { organisationId: string; volunteerId: string },
  {
    turnoutsAMonth,
    wouldLearn,
    consents,
    phone,
  }: Pick<VolunteerDocument, 'turnoutsAMonth' | 'wouldLearn' | 'consents' | 'phone'>,
): Promise<void> {
  if (turnoutsAMonth !== undefined || wouldLearn !== undefined) {
    const known = await manager.findOneBy(PersonWish, { volunteerId: owner.volunteerId });
    const wish = {
      ratherNots: known?.ratherNots ?? [],
      turnoutsAMonth: turnoutsAMonth === undefined ? (known?.turnoutsAMonth ?? null) : turnoutsAMonth,
      wouldLearn: wouldLearn === undefined ? (known?.wouldLearn ?? null) : wouldLearn,
    };
    if (known || wish.turnoutsAMonth !== null || wish.wouldLearn !== null)
      await manager.save(PersonWish, { ...owner, ...wish });
  }
  if (phone !== undefined) await manager.save(PhoneEntity, { ...owner, number: phone });
  if (consents === undefined) return;
  await manager.delete(GuardianConsent, owner);
  await insertAll(
    manager,
    GuardianConsent,
    consents.map((one) => ({ id: newId('guardian'), ...owner, ...one })),
  );
}
