import type { RequestContext } from '@ribband/access';
import type { EntityManager } from 'typeorm';
import { In } from 'typeorm';
import { CardKind } from './cards/card-kind.entity.js';
import { inOrderOf, loader } from './graphql/loaders.js';
import { Skill } from './skills/skill.entity.js';
import { VolunteerSkill } from './skills/volunteer-skill.entity.js';
import { groupedBy } from './graphql/loaders.js';
import { crewHands, type CrewHand } from './volunteers/crew-hands.js';
import { Volunteer } from './volunteers/volunteer.entity.js';

type Context = Pick<RequestContext, 'loaders'>;

/** Skills by id, one read a request. */
export const skillLoader = (context: Context, read: EntityManager) =>
  loader(context, 'crew.skill', async (ids: readonly string[]) =>
    inOrderOf(ids, await read.findBy(Skill, { id: In([...ids]) })),
  );

/** Kinds of cards by id. */
export const cardKindLoader = (context: Context, read: EntityManager) =>
  loader(context, 'crew.cardKind', async (ids: readonly string[]) =>
    inOrderOf(ids, await read.findBy(CardKind, { id: In([...ids]) })),
  );

/** Volunteers by id, for those who have been asked already whether they may see them. */
export const volunteerLoader = (context: Context, read: EntityManager) =>
  loader(context, 'crew.volunteer', async (ids: readonly string[]) =>
    inOrderOf(ids, await read.findBy(Volunteer, { id: In([...ids]) })),
  );

/** What somebody has been signed off for, by volunteer. */
export const levelsLoader = (context: Context, read: EntityManager) =>
  loader(context, 'crew.levels', async (ids: readonly string[]) =>
    groupedBy(
      ids,
      await read.find(VolunteerSkill, { where: { volunteerId: In([...ids]) }, order: { id: 'ASC' } }),
      (row) => row.volunteerId,
    ),
  );

/** Cards and availability by volunteer, all of one organisation. */
export const handLoader = (context: Context, read: EntityManager, organisationId: string) =>
  loader(context, `crew.hand.${organisationId}`, async (ids: readonly string[]): Promise<CrewHand[]> =>
    inOrderOf(ids, await crewHands(read, organisationId, ids)),
  );
