import { Membership } from '@ribband/access';
import { newId } from '@ribband/platform';
import { IsNull, Not, type EntityManager } from 'typeorm';
import { AvailabilityExceptionEntity } from '../availability/availability-exception.entity.js';
import { AvailabilityRuleEntity } from '../availability/availability-rule.entity.js';
import { CardKind } from '../cards/card-kind.entity.js';
import { CardEntity } from '../cards/card.entity.js';
import { formerCardPurpose, formerSkillPurpose } from '../purposes/purposes.js';
import { Skill } from '../skills/skill.entity.js';
import { VolunteerSkill } from '../skills/volunteer-skill.entity.js';
import { usualChance } from '../volunteers/usual-chance.js';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import type { CrewDocument } from './crew-document.js';
import { handOverWishes, writeWishes } from './write-wishes.js';
import { insertAll, known } from './refs.js';

/** Who was there before, by their document keys: their ids, and what was stated of how they come. */
export type FormerVolunteers = ReadonlyMap<string, Pick<Volunteer, 'id' | 'showUpChance'>>;

/** The crew as it was, by its document keys: people, and what cards and skills were taken for. */
export interface FormerCrew {
  volunteers: FormerVolunteers;
  skills: ReadonlyMap<string, Pick<Skill, 'purpose'>>;
  cardKinds: ReadonlyMap<string, Pick<CardKind, 'purpose'>>;
}

const nobody: FormerCrew = { volunteers: new Map(), skills: new Map(), cardKinds: new Map() };

/**
 * Takes the whole crew of an organisation out of the records: nothing else may name a skill, a card kind or a
 * volunteer any more. Hands back who had which id, so that accounts find their people again after a new import.
 */
export async function eraseCrew(manager: EntityManager, organisationId: string): Promise<FormerCrew> {
  const skills = await manager.findBy(Skill, { organisationId });
  const kinds = await manager.findBy(CardKind, { organisationId });
  const rows = await manager.findBy(Volunteer, { organisationId });
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
  return {
    volunteers: new Map(rows.map(({ ref, id, showUpChance }) => [ref, { id, showUpChance }])),
    skills: new Map(skills.map((skill) => [skill.ref, skill])),
    cardKinds: new Map(kinds.map((kind) => [kind.ref, kind])),
  };
}

/**
 * Writes the crew's part of a document that has been checked whole, in the document's order.
 * @param former who was there before, as `eraseCrew` gave them: their accounts go with them, and what was stated of them
 *   where the document is silent
 */
export async function writeCrew(
  manager: EntityManager,
  organisationId: string,
  document: CrewDocument,
  former: FormerCrew = nobody,
): Promise<void> {
  const formerIds = new Map([...former.volunteers].map(([ref, { id }]) => [ref, id]));
  const skills = document.skills.map((one): Skill => {
    const purpose = purposeIn(one, former.skills, formerSkillPurpose);
    return { id: newId('skill'), organisationId, ref: one.ref, name: one.name, purpose };
  });
  const cardKinds = document.cardKinds.map((one): CardKind => {
    const purpose = purposeIn(one, former.cardKinds, formerCardPurpose);
    return { id: newId('cardkind'), organisationId, ref: one.ref, name: one.name, purpose };
  });
  await insertAll(manager, Skill, skills);
  await insertAll(manager, CardKind, cardKinds);
  const skillIds = new Map(skills.map((skill) => [skill.ref, skill.id]));
  const cardKindIds = new Map(cardKinds.map((kind) => [kind.ref, kind.id]));

  const volunteers = document.volunteers.map((one): Volunteer => {
    const { ref, name, kind, bornOn, email, minutesAWeek, minutesATurnout } = one;
    const showUpChance = one.showUpChance ?? former.volunteers.get(ref)?.showUpChance ?? usualChance;
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

/** What the document says; where it is silent, what is there; for what is new, as such documents were read. */
function purposeIn<P>(
  one: { ref: string; name: string; purpose?: P | null | undefined },
  former: ReadonlyMap<string, { purpose: P | null }>,
  byName: (one: { ref: string; name: string }) => P | null,
): P | null {
  if (one.purpose !== undefined) return one.purpose;
  const known = former.get(one.ref);
  return known ? known.purpose : byName(one);
}

/** Points the accounts of people who were here before at their new records, or at none. */
async function handOverAccounts(
  manager: EntityManager,
  organisationId: string,
  formerIds: ReadonlyMap<string, string>,
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
