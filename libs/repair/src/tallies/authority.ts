import type { Caller } from '@ribband/access';
import { highestLevel, VolunteerSkill } from '@ribband/crew';
import { refuse } from '@ribband/platform';
import { In, IsNull, LessThanOrEqual, MoreThanOrEqual, type EntityManager } from 'typeorm';
import { Seat } from '../tasks/seat.entity.js';
import type { Task } from '../tasks/task.entity.js';
import { DelegationEntity } from './delegation.entity.js';

type Judged = Pick<Task, 'id' | 'kind' | 'position'>;

/** On whose word somebody may say whether work is good; null when they may not. */
export type Authority = (task: Judged, skillIds: readonly string[]) => string | null;

/**
 * The shipwright's own; that of a skill in which somebody was signed off to say so; or one that was given to them,
 * over some work and until a day. Points at which everything is held, and the launch, are the shipwright's, or go to
 * whom they are given by name or with all work.
 */
export async function authorityOf(manager: EntityManager, caller: Caller, today: string): Promise<Authority> {
  if (caller.role === 'shipwright') return () => caller.name;
  const { organisationId, volunteerId } = caller;
  if (volunteerId === null) return () => null;
  const given = await givenTo(manager, organisationId, volunteerId, today);
  const own = await manager.findBy(VolunteerSkill, { organisationId, volunteerId, level: highestLevel });
  const mine = new Set(own.map((skill) => skill.skillId));
  return (task, skillIds) => {
    const isHold = task.kind === 'hold' || task.kind === 'launch';
    if (!isHold && skillIds.some((skillId) => mine.has(skillId))) return caller.name;
    const over = given.find((one) => covers(one, task, skillIds, isHold));
    return over ? `${caller.name}, for ${over.givenBy}` : null;
  };
}

/** The shipwright's own name, or that of whoever has all of the shipwright's authority in writing; null for others. */
export async function wholeAuthorityOf(
  manager: EntityManager,
  { role, name, organisationId, volunteerId }: Caller,
  today: string,
): Promise<string | null> {
  if (role === 'shipwright') return name;
  if (volunteerId === null) return null;
  const given = await givenTo(manager, organisationId, volunteerId, today);
  const whole = given.find(({ scope }) => scope === 'all');
  return whole ? `${name}, for ${whole.givenBy}` : null;
}

/** What was given to somebody and counts on a day. */
function givenTo(
  manager: EntityManager,
  organisationId: string,
  volunteerId: string,
  today: string,
): Promise<DelegationEntity[]> {
  return manager.findBy(DelegationEntity, {
    organisationId,
    volunteerId,
    revokedAt: IsNull(),
    fromOn: LessThanOrEqual(today),
    untilOn: MoreThanOrEqual(today),
  });
}

function covers(
  { scope, names }: Pick<DelegationEntity, 'scope' | 'names'>,
  task: Judged,
  skillIds: readonly string[],
  isHold: boolean,
): boolean {
  if (scope === 'all') return true;
  if (scope === 'tasks') return names.includes(task.id);
  if (isHold) return false;
  if (scope === 'kind') return names.includes(task.kind);
  if (scope === 'position') return task.position !== null && names.includes(task.position);
  return skillIds.some((skillId) => names.includes(skillId));
}

/** The skills that each of some tasks asks for. */
export async function skillsAsked(
  manager: EntityManager,
  taskIds: readonly string[],
): Promise<(taskId: string) => string[]> {
  const seats = await manager.findBy(Seat, { taskId: In([...taskIds]) });
  return (taskId) => seats.filter((seat) => seat.taskId === taskId).map((seat) => seat.skillId);
}

/** @returns in whose name it is said @throws RefusalError NOT_PERMITTED */
export async function refuseWithoutAuthority(
  manager: EntityManager,
  caller: Caller,
  task: Judged,
  today: string,
): Promise<string> {
  const authority = await authorityOf(manager, caller, today);
  const skills = (await skillsAsked(manager, [task.id]))(task.id);
  return (
    authority(task, skills) ??
    refuse('NOT_PERMITTED', 'You may not say whether this work is good.', {
      field: 'taskId',
      remedy: 'The shipwright says so, or whoever the shipwright has named for it.',
    })
  );
}
