import { In, type EntityManager } from 'typeorm';
import { AvailabilityExceptionEntity } from '../availability/availability-exception.entity.js';
import { AvailabilityRuleEntity } from '../availability/availability-rule.entity.js';
import type { ComingException, ComingRule } from '../availability/availability.types.js';
import { CardEntity } from '../cards/card.entity.js';
import { GuardianConsent } from '../consent/consent.entity.js';
import type { Hand, HeldConsent } from '../gates/gate.types.js';
import { Skill } from '../skills/skill.entity.js';
import { VolunteerSkill } from '../skills/volunteer-skill.entity.js';
import type { RatherNot } from '../wishes/rather-not.js';
import { PersonWish } from '../wishes/wish.entity.js';
import { Volunteer } from './volunteer.entity.js';

/** A volunteer with all that gates and plans look at. */
export interface CrewHand extends Hand {
  ref: string;
  /** Cards in the order in which they were entered. */
  cards: { id: string; kindId: string; issuer: string; expiresOn: string | null }[];
  showUpChance: number;
  minutesAWeek: number | null;
  minutesATurnout: number | null;
  rules: ComingRule[];
  exceptions: ComingException[];
  consents: HeldConsent[];
  turnoutsAMonth: number | null;
  /** Private: for the plan and the coordinator, never to be shown to others. */
  ratherNots: RatherNot[];
  /** Skills that they would like to learn. Private like the others. */
  wouldLearn: string[];
}

const asRule = (row: AvailabilityRuleEntity): ComingRule => ({
  rule: row.rule,
  startsOn: row.startsOn,
  untilOn: row.untilOn,
  from: row.fromTime,
  to: row.toTime,
});

const asException = (row: AvailabilityExceptionEntity): ComingException => ({
  fromOn: row.fromOn,
  toOn: row.toOn,
  canCome: row.canCome,
  from: row.fromTime,
  to: row.toTime,
});

function gathered<T extends { volunteerId: string }>(rows: T[]): (volunteerId: string) => T[] {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const group = groups.get(row.volunteerId);
    if (group) group.push(row);
    else groups.set(row.volunteerId, [row]);
  }
  return (volunteerId) => groups.get(volunteerId) ?? [];
}

/**
 * The crew of an organisation, or those of it who are named, in the order in which they were entered. Nine reads,
 * however many people.
 */
export async function crewHands(
  manager: EntityManager,
  organisationId: string,
  volunteerIds?: readonly string[],
): Promise<CrewHand[]> {
  if (volunteerIds?.length === 0) return [];
  const ofThem = volunteerIds ? { volunteerId: In([...volunteerIds]) } : {};
  const order = { id: 'ASC' } as const;
  const where = { organisationId, ...ofThem };
  const volunteers = await manager.find(Volunteer, {
    where: { organisationId, ...(volunteerIds ? { id: In([...volunteerIds]) } : {}) },
    order,
  });
  const skills = gathered(await manager.find(VolunteerSkill, { where, order }));
  const cards = gathered(await manager.find(CardEntity, { where, order }));
  const rules = gathered(await manager.find(AvailabilityRuleEntity, { where, order }));
  const exceptions = gathered(await manager.find(AvailabilityExceptionEntity, { where, order }));
  const consents = gathered(await manager.find(GuardianConsent, { where, order }));
  const wishes = gathered(await manager.findBy(PersonWish, where));
  const byRef = new Map((await manager.findBy(Skill, { organisationId })).map(({ ref, id }) => [ref, id]));
  return volunteers.map((one) => ({
    id: one.id,
    ref: one.ref,
    name: one.name,
    bornOn: one.bornOn,
    levels: new Map(skills(one.id).map((skill) => [skill.skillId, skill.level])),
    cards: cards(one.id).map(({ id, kindId, issuer, expiresOn }) => ({ id, kindId, issuer, expiresOn })),
    showUpChance: one.showUpChance,
    minutesAWeek: one.minutesAWeek,
    minutesATurnout: one.minutesATurnout,
    rules: rules(one.id).map(asRule),
    exceptions: exceptions(one.id).map(asException),
    consents: consents(one.id).map(({ kinds, givenOn, withdrawnOn }) => ({ kinds, givenOn, withdrawnOn })),
    turnoutsAMonth: wishes(one.id)[0]?.turnoutsAMonth ?? null,
    ratherNots: wishes(one.id)[0]?.ratherNots ?? [],
    wouldLearn: (wishes(one.id)[0]?.wouldLearn ?? []).flatMap((ref) => byRef.get(ref) ?? []),
  }));
}
