import type { EntityManager } from 'typeorm';
import { CardKind } from '../cards/card-kind.entity.js';
import { GuardianConsent } from '../consent/consent.entity.js';
import { PhoneEntity } from '../phones/phone.entity.js';
import { Skill } from '../skills/skill.entity.js';
import { VolunteerSkill } from '../skills/volunteer-skill.entity.js';
import { crewHands } from '../volunteers/crew-hands.js';
import { Volunteer } from '../volunteers/volunteer.entity.js';
import type { ConsentDocument, CrewDocument } from './crew-document.js';
import { known, refsById } from './refs.js';

/**
 * The crew's part of an organisation's yard document, in the order in which things were entered.
 * @param withPhones whether whoever takes it out may read where people are rung up and what they would like to learn
 */
export async function readCrew(
  manager: EntityManager,
  organisationId: string,
  withPhones = true,
): Promise<CrewDocument> {
  const order = { id: 'ASC' } as const;
  const where = { organisationId };
  const skillRefs = await refsById(manager, Skill, organisationId);
  const kindRefs = await refsById(manager, CardKind, organisationId);
  const volunteers = new Map((await manager.find(Volunteer, { where })).map((one) => [one.id, one]));
  const levels = await manager.find(VolunteerSkill, { where, order });
  const consents = await manager.find(GuardianConsent, { where, order });
  const rung = withPhones ? await manager.findBy(PhoneEntity, where) : [];
  const phones = new Map(rung.map(({ volunteerId, number }) => [volunteerId, number]));
  const hands = await crewHands(manager, organisationId);
  return {
    skills: (await manager.find(Skill, { where, order })).map(({ ref, name, purpose }) => ({
      ref,
      name,
      purpose,
    })),
    cardKinds: (await manager.find(CardKind, { where, order })).map(({ ref, name, purpose }) => ({
      ref,
      name,
      purpose,
    })),
    volunteers: hands.map((hand) => {
      const { kind = 'volunteer', email = null } = volunteers.get(hand.id) ?? {};
      return {
        ref: hand.ref,
        name: hand.name,
        bornOn: hand.bornOn,
        kind,
        email,
        minutesAWeek: hand.minutesAWeek,
        minutesATurnout: hand.minutesATurnout,
        skills: levels
          .filter((held) => held.volunteerId === hand.id && held.level > 0)
          .map((held) => ({
            skill: known(skillRefs, held.skillId),
            level: held.level,
            signedOffBy: held.signedOffBy,
          })),
        cards: hand.cards.map(({ kindId, issuer, expiresOn }) => ({
          kind: known(kindRefs, kindId),
          issuer,
          expiresOn,
        })),
        availability: { rules: hand.rules, exceptions: hand.exceptions },
        ...(phones.has(hand.id) ? { phone: phones.get(hand.id) } : {}),
        // What somebody would rather not do stays here.
        ...(hand.turnoutsAMonth === null ? {} : { turnoutsAMonth: hand.turnoutsAMonth }),
        ...(withPhones && hand.wouldLearn.length > 0
          ? { wouldLearn: hand.wouldLearn.map((id) => known(skillRefs, id)) }
          : {}),
        ...consentsOf(consents.filter((one) => one.volunteerId === hand.id)),
      };
    }),
  };
}

function consentsOf(rows: readonly GuardianConsent[]): { consents?: ConsentDocument[] } {
  return rows.length === 0 ? {} : { consents: rows.map(consentDocument) };
}

function consentDocument(row: GuardianConsent): ConsentDocument {
  const { guardianName, guardianEmail, kinds, how, givenOn, writtenBy, withdrawnOn } = row;
  return { guardianName, guardianEmail, kinds, how, givenOn, writtenBy, withdrawnOn };
}
