import { Audit, permit, type Caller } from '@ribband/access';
import { knownIds, Skill, volunteerOf, YardDay } from '@ribband/crew';
import { daysBetween, Database, newId, RealClock, refuse } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { Task } from '../tasks/task.entity.js';
import { taskKinds } from '../tasks/task-words.js';
import { wordsOf } from '../words.js';
import { DelegationEntity, type DelegationScope } from './delegation.entity.js';

export interface DelegationDraft {
  volunteerId: string;
  scope: DelegationScope;
  names: string[];
  from: string;
  until: string;
  reason: string;
}

const longestDays = 92;
const mostNames = 200;

/** Giving the shipwright's say-so into other hands, and taking it back. */
@Injectable()
export class Delegations {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  /** All that were given, newest first; at most 100. */
  list(caller: Caller): Promise<DelegationEntity[]> {
    permit(caller, 'shipwright', 'director', 'coordinator');
    const where = { organisationId: caller.organisationId };
    return this.database.read.find(DelegationEntity, { where, order: { id: 'DESC' }, take: 100 });
  }

  /** The shipwright gives it; where the shipwright cannot, the director does. */
  async give(caller: Caller, draft: DelegationDraft): Promise<DelegationEntity> {
    permit(caller, 'shipwright', 'director');
    const reason = wordsOf(draft.reason, 'reason', 300, 'Why');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const today = await this.yardDay.today(organisationId, manager);
      await volunteerOf(manager, organisationId, draft.volunteerId);
      const { from, until } = draft;
      if (until < from || until < today || daysBetween(from, until) > longestDays)
        refuse('BAD_INPUT', 'It ends on a day that is to come, and not too far off.', {
          field: 'until',
          remedy: `A day from ${from < today ? today : from} on, at most ${longestDays} days after the first.`,
        });
      await refuseUnknown(manager, organisationId, draft);
      const row: DelegationEntity = {
        id: newId('delegation'),
        organisationId,
        volunteerId: draft.volunteerId,
        scope: draft.scope,
        names: draft.scope === 'all' ? [] : [...new Set(draft.names)],
        fromOn: from,
        untilOn: until,
        reason,
        givenBy: caller.name,
        givenAt: this.realClock.now(),
        revokedAt: null,
        revokedBy: null,
      };
      await manager.insert(DelegationEntity, row);
      const { volunteerId, scope, names } = row;
      await this.audit.note(manager, caller, 'giveSaySo', row.id, {
        volunteerId,
        scope,
        names,
        from,
        until,
        reason,
      });
      return row;
    });
  }

  /** Takes it back; what was said meanwhile stands. */
  async revoke(caller: Caller, id: string): Promise<DelegationEntity> {
    permit(caller, 'shipwright', 'director');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const row =
        (await manager.findOneBy(DelegationEntity, { organisationId, id })) ??
        refuse('NOT_FOUND', 'There is no such delegation.', { field: 'id', remedy: 'Read them again.' });
      if (row.revokedAt !== null)
        refuse('CHANGED_MEANWHILE', 'It was taken back already.', {
          field: 'id',
          facts: { 'taken back by': row.revokedBy ?? '' },
        });
      const gone = { revokedAt: this.realClock.now(), revokedBy: caller.name };
      await manager.update(DelegationEntity, { id }, gone);
      await this.audit.note(manager, caller, 'revokeSaySo', id, { volunteerId: row.volunteerId });
      return Object.assign(row, gone);
    });
  }
}

async function refuseUnknown(
  manager: EntityManager,
  organisationId: string,
  { scope, names }: DelegationDraft,
): Promise<void> {
  if (scope === 'all') return;
  const no = (remedy: string): never =>
    refuse('BAD_INPUT', 'It is not clear over which work.', { field: 'names', remedy });
  if (names.length === 0 || names.length > mostNames) no(`Name 1 to ${mostNames}.`);
  if (scope === 'kind' && names.some((name) => !(taskKinds as readonly string[]).includes(name)))
    no(`Kinds are ${taskKinds.join(', ')}.`);
  if (scope === 'skill' && (await knownIds(manager, Skill, organisationId, names)).size < new Set(names).size)
    no('Name skills of the yard.');
  if (scope === 'tasks' && (await knownIds(manager, Task, organisationId, names)).size < new Set(names).size)
    no('Name tasks of the yard.');
}
