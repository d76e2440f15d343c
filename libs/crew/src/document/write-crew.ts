import { Membership } from '@ribband/access';
import { newId } from '@ribband/platform';
import { IsNull, Not, type EntityManager } from 'typeorm';
import { AvailabilityExceptionEntity } from '../availability/availability-exception.entity.js';
import { AvailabilityRuleEntity } from '../availability/availability-rule.entity.js';
import { CardKind } from '../cards/card-kind.entity.js';
import { CardEntity } from '../cards/card.entity.js';
import { Skill } from '../skills/skill.entity.js';
import { VolunteerSkill } from '../skills/volunteer-skill.entity.js';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import type { CrewDocument } from './crew-document.js';
import { handOverWishes, writeWishes } from './write-wishes.js';
import { idsByRef, insertAll, known } from './refs.js';

/** Ids of volunteers by their document keys. */
export type VolunteerIds = ReadonlyMap<string, string>;

/**
 * Takes the whole crew of an organisation out of the records: nothing else may name a skill, a card kind or a
 * volunteer any more. Hands back who had which id, so that accounts find their people again after a new import.
 */
export async function eraseCrew(manager: EntityManager, organisationId: string): Promise<VolunteerIds> {
  const ids = await idsByRef(manager, Volunteer, organisationId);
  for (const entity of [
    VolunteerSkill,
    CardEntity,
    AvailabilityRuleEntity,
    AvailabilityExceptionEntity,
    Volunteer,
    Skill,
    CardKind,
  ])
    await manager.delete(entity, { organisationId });
  return ids;
}

/**
 * Writes the crew's part of a document that has been checked whole, in the document's order.
 * @param formerIds ids that volunteers had before, as `eraseCrew` gave them: their accounts go with them
 */
export async function writeCrew(
  manager: EntityManager,
  organisationId: string,
  document: CrewDocument,
  formerIds: VolunteerIds = new Map(),
): Promise<void> {
  const listed = (kind: string, entries: { ref: string; name: string }[]) =>
    entries.map(({ ref, name }) => ({ id: newId(kind), organisationId, ref, name }));
  const skills = listed('skill', document.skills);
  const cardKinds = listed('cardkind', document.cardKinds);
  await insertAll(manager, Skill, skills);
  await insertAll(manager, CardKind, cardKinds);
  const skillIds = new Map(skills.map((skill) => [skill.ref, skill.id]));
  const cardKindIds = new Map(cardKinds.map((kind) => [kind.ref, kind.id]));

  const volunteers = document.volunteers.map((one): Volunteer => {
    const { ref, name, kind, bornOn, email, showUpChance, minutesAWeek, minutesATurnout } = one;
    const own = { ref, name, kind, bornOn, email, showUpChance, minutesAWeek, minutesATurnout };
    return { id: newId('volunteer'), organisationId, version: 1, ...own };
  });
  await insertAll(manager, Volunteer, volunteers);
  await handOverAccounts(manager, organisationId, formerIds, volunteers);
  await handOverWishes(manager, organisationId, formerIds, volunteers);
  const withId = document.volunteers.map((one, at) => ({ one, volunteerId: volunteers[at]?.id ?? '' }));
  await insertAll(
    manager,
    VolunteerSkill,
    withId.flatMap(({ one, volunteerId }) =>
      one.skills.map((held) => ({
        id: newId('level'),
        organisationId,
        volunteerId,
        skillId: known(skillIds, held.skill),
        level: held.level,
        signedOffBy: held.signedOffBy,
        signedOffAt: null,
      })),
    ),
  );
  await insertAll(
    manager,
    CardEntity,
    withId.flatMap(({ one, volunteerId }) =>
      one.cards.map((card) => ({
        id: newId('card'),
        organisationId,
        volunteerId,
        kindId: known(cardKindIds, card.kind),
        issuer: card.issuer,
        expiresOn: card.expiresOn,
      })),
    ),
  );
  for (const { one, volunteerId } of withId) await writeWishes(manager, { organisationId, volunteerId }, one);
  for (const { one, volunteerId } of withId)
    await writeAvailability(manager, { organisationId, volunteerId }, one.availability);
}

/** Points the accounts of people who were here before at their new records, or at none. */
async function handOverAccounts(
  manager: EntityManager,
  organisationId: string,
  formerIds: VolunteerIds,
  volunteers: readonly Volunteer[],
): Promise<void> {
  const nowIds = new Map(volunteers.map((one) => [one.ref, one.id]));
  const members = await manager.find(Membership, { where: { organisationId, volunteerId: Not(IsNull()) } });
  const refOf = new Map([...formerIds].map(([ref, id]) => [id, ref]));
  for (const member of members) {
    const ref = refOf.get(member.volunteerId ?? '');
    if (ref !== undefined)
      await manager.update(Membership, { id: member.id }, { volunteerId: nowIds.get(ref) ?? null });
  }
}

/** Writes somebody's whole availability, in its order; what was there before must be gone. */
export async function writeAvailability(
  manager: EntityManager,
  owner: { organisationId: string; volunteerId: string },
  { rules, exceptions }: CrewDocument['volunteers'][number]['availability'],
): Promise<void> {
  await insertAll(
    manager,
    AvailabilityRuleEntity,
    rules.map((one) => ({
      id: newId('rule'),
      ...owner,
      rule: one.rule,
      startsOn: one.startsOn,
      untilOn: one.untilOn,
      fromTime: one.from,
      toTime: one.to,
    })),
  );
  await insertAll(
    manager,
    AvailabilityExceptionEntity,
    exceptions.map((one) => ({
      id: newId('exception'),
      ...owner,
      fromOn: one.fromOn,
      toOn: one.toOn,
      canCome: one.canCome,
      fromTime: one.from,
      toTime: one.to,
    })),
  );
}
