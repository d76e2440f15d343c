import { idsByRef, insertAll, known, leaves, refsById, Skill, Volunteer } from '@ribband/crew';
import { newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { z } from 'zod';
import { Task } from '../tasks/task.entity.js';
import { DelegationEntity, delegationScopes } from './delegation.entity.js';

const { byAt, day, list, moment, ref, words } = leaves;

/** Say-so in other hands; `names` are kinds, positions, or refs of skills or of tasks, as the scope says. */
export const delegationsForm = list(
  z.strictObject({
    volunteer: ref,
    scope: z.enum(delegationScopes),
    names: list(words, 200),
    from: day,
    until: day,
    reason: words,
    givenBy: words,
    givenAt: moment,
    revoked: byAt,
  }),
);

export type DelegationsDocument = z.infer<typeof delegationsForm>;

/** In the order of entry. One over tasks that were all dropped is over nothing, and left out. */
export async function readDelegations(
  manager: EntityManager,
  organisationId: string,
  tasks: ReadonlyMap<string, string>,
): Promise<DelegationsDocument> {
  const volunteers = await refsById(manager, Volunteer, organisationId);
  const skills = await refsById(manager, Skill, organisationId);
  const refsOf = { skill: skills, tasks } as Partial<Record<string, ReadonlyMap<string, string>>>;
  const rows = await manager.find(DelegationEntity, { where: { organisationId }, order: { id: 'ASC' } });
  return rows.flatMap(({ volunteerId, scope, names, fromOn, untilOn, reason, givenBy, ...row }) => {
    const refs = refsOf[scope];
    const named = refs ? names.flatMap((id) => refs.get(id) ?? []) : names;
    if (scope !== 'all' && named.length === 0) return [];
    return [
      {
        volunteer: known(volunteers, volunteerId),
        scope,
        names: named,
        from: fromOn,
        until: untilOn,
        reason,
        givenBy,
        givenAt: leaves.toMoment(row.givenAt),
        revoked: leaves.asByAt(row.revokedAt, row.revokedBy),
      },
    ];
  });
}

/** Writes them; crew and tasks must be there. */
export async function writeDelegations(
  manager: EntityManager,
  organisationId: string,
  document: DelegationsDocument,
): Promise<void> {
  const volunteers = await idsByRef(manager, Volunteer, organisationId);
  const idsOf = {
    skill: await idsByRef(manager, Skill, organisationId),
    tasks: await idsByRef(manager, Task, organisationId),
  } as Partial<Record<string, ReadonlyMap<string, string>>>;
  await insertAll(
    manager,
    DelegationEntity,
    document.map(({ volunteer, scope, names, from, until, reason, givenBy, givenAt, revoked }) => {
      const ids = idsOf[scope];
      return {
        id: newId('delegation'),
        organisationId,
        volunteerId: known(volunteers, volunteer),
        scope,
        names: ids ? names.map((name) => known(ids, name)) : names,
        fromOn: from,
        untilOn: until,
        reason,
        givenBy,
        givenAt: leaves.fromMoment(givenAt),
        revokedAt: revoked && leaves.fromMoment(revoked.at),
        revokedBy: revoked?.by ?? null,
      };
    }),
  );
}
