import { CardKind, highestLevel, Skill } from '@ribband/crew';
import { refuse } from '@ribband/platform';
import { wordsOf } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';

/** A role at an all-hands day as it is asked for. */
export interface NewRole {
  role: string;
  count: number;
  skillId: string | null;
  /** 0 for a hand. */
  level: number;
  cardKindId: string | null;
}

const mostRoles = 30;
const mostOfARole = 20;
const mostPlaces = 60;

/** @throws RefusalError naming the role and the field of it that is wrong */
export function saidRoles<Role extends NewRole>(given: readonly Role[]): Role[] {
  if (given.length === 0 || given.length > mostRoles)
    refuse('BAD_INPUT', given.length === 0 ? 'No role is named.' : 'There are too many roles.', {
      field: 'roles',
      remedy: `From 1 to ${mostRoles} roles.`,
    });
  const roles = given.map((one, i): Role => {
    const path = `roles[${i}]`;
    const role = wordsOf(one.role, `${path}.role`, 80, 'A role');
    if (one.count < 1 || one.count > mostOfARole)
      refuse('BAD_INPUT', `“${role}” is for ${one.count}.`, {
        field: `${path}.count`,
        remedy: `From 1 to ${mostOfARole}; leave a role out that nobody has.`,
      });
    const least = one.skillId === null ? 0 : 1;
    const most = one.skillId === null ? 0 : highestLevel;
    if (one.level < least || one.level > most)
      refuse('BAD_INPUT', `“${role}” asks for level ${one.level}.`, {
        field: `${path}.level`,
        remedy: `1 to ${highestLevel} where it asks for a skill, 0 where it does not.`,
      });
    return { ...one, role };
  });
  const twice = roles.findIndex(({ role }, i) => roles.findIndex((other) => other.role === role) < i);
  if (twice >= 0)
    refuse('BAD_INPUT', `“${roles[twice]?.role ?? ''}” is there twice.`, {
      field: `roles[${twice}].role`,
      remedy: 'Name each role once, with how many have it.',
    });
  if (roles.reduce((sum, { count }) => sum + count, 0) > mostPlaces)
    refuse('BAD_INPUT', `There are more than ${mostPlaces} places.`, {
      field: 'roles',
      remedy: `At most ${mostPlaces} at one day.`,
    });
  return roles;
}

/** @throws RefusalError where a role asks for a skill or a card that the crew does not know */
export async function refuseStrange(
  manager: EntityManager,
  organisationId: string,
  roles: readonly NewRole[],
): Promise<void> {
  const idsOf = (ids: (string | null)[]) => In(ids.flatMap((id) => id ?? []));
  const skills = await manager.findBy(Skill, {
    organisationId,
    id: idsOf(roles.map(({ skillId }) => skillId)),
  });
  const cards = await manager.findBy(CardKind, {
    organisationId,
    id: idsOf(roles.map(({ cardKindId }) => cardKindId)),
  });
  for (const [i, { skillId, cardKindId }] of roles.entries()) {
    if (skillId !== null && !skills.some(({ id }) => id === skillId))
      refuse('NOT_FOUND', 'There is no such skill.', {
        field: `roles[${i}].skillId`,
        remedy: 'Choose one of the crew’s.',
      });
    if (cardKindId !== null && !cards.some(({ id }) => id === cardKindId))
      refuse('NOT_FOUND', 'There is no such kind of card.', {
        field: `roles[${i}].cardKindId`,
        remedy: 'Choose one of the crew’s.',
      });
  }
}
