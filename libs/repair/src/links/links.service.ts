import { Audit, permit, type Caller } from '@ribband/access';
import { Database, expectVersion, newId, refuse, Revisions } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { In, Not, type EntityManager } from 'typeorm';
import { Task } from '../tasks/task.entity.js';
import { liveTaskOf } from '../tasks/task.records.js';
import { anyCircle, circleWith } from './circle.js';
import type { LagKind, Relation } from './link-words.js';
import { Link } from './link.entity.js';

export interface LinkDraft {
  beforeId: string;
  afterId: string;
  relation: Relation;
  lagMinutes: number;
  lagKind: LagKind;
}

/** About two years of minutes: what lies beyond is a slip of the pen. */
const mostLagMinutes = 1_000_000;

/** What waits for what. */
@Injectable()
export class Links {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
  ) {}

  async add(caller: Caller, draft: LinkDraft): Promise<Link> {
    return this.database.write((manager) => this.addIn(manager, caller, draft));
  }

  /** The same inside another use case. */
  async addIn(manager: EntityManager, caller: Caller, draft: LinkDraft): Promise<Link> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    checkLag(draft.lagMinutes);
    const { organisationId } = caller;
    const before = await liveTaskOf(manager, organisationId, draft.beforeId, 'beforeId');
    const after = await liveTaskOf(manager, organisationId, draft.afterId, 'afterId');
    if (before.id === after.id)
      refuse('LINK_CIRCLE', `"${after.title}" can’t wait for itself.`, {
        field: 'afterId',
        remedy: 'Choose another task on one of the two ends.',
      });
    await refuseDouble(manager, draft, null);
    await refuseCircle(manager, organisationId, draft);
    const link: Link = { id: newId('link'), organisationId, version: 1, ...draft };
    await manager.insert(Link, link);
    await this.changed(manager, caller, 'addLink', link, { before: before.title, after: after.title });
    return link;
  }

  /** Changes how two tasks are tied; which two they are stays. */
  async edit(
    caller: Caller,
    id: string,
    version: number,
    changes: Partial<Pick<LinkDraft, 'relation' | 'lagMinutes' | 'lagKind'>>,
  ): Promise<Link> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    return this.database.write(async (manager) => {
      const link = await linkOf(manager, caller.organisationId, id);
      expectVersion(link, version);
      const { relation = link.relation, lagMinutes = link.lagMinutes, lagKind = link.lagKind } = changes;
      checkLag(lagMinutes);
      Object.assign(link, { relation, lagMinutes, lagKind, version: version + 1 });
      await refuseDouble(manager, link, link.id);
      await manager.update(Link, { id }, { relation, lagMinutes, lagKind, version: link.version });
      await this.changed(manager, caller, 'editLink', link, { relation, lagMinutes, lagKind });
      return link;
    });
  }

  async remove(caller: Caller, id: string, version: number): Promise<Link> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    return this.database.write(async (manager) => {
      const link = await linkOf(manager, caller.organisationId, id);
      expectVersion(link, version);
      await manager.delete(Link, { id });
      await this.changed(manager, caller, 'removeLink', link, { before: link.beforeId, after: link.afterId });
      return link;
    });
  }

  private async changed(
    manager: EntityManager,
    caller: Caller,
    operation: string,
    link: Link,
    facts: Record<string, unknown>,
  ): Promise<void> {
    await this.revisions.requestPlan(manager, caller.organisationId, operation);
    await this.audit.note(manager, caller, operation, link.id, facts);
  }
}

/** Many links written at once: the first circle among all of them is refused. */
export async function refuseAnyCircle(manager: EntityManager, organisationId: string): Promise<void> {
  const links = await manager.findBy(Link, { organisationId });
  const circle = anyCircle(links.map((link) => ({ before: link.beforeId, after: link.afterId })));
  if (circle) await refuseRound(manager, circle);
}

function checkLag(minutes: number): void {
  if (Number.isInteger(minutes) && Math.abs(minutes) <= mostLagMinutes) return;
  refuse('BAD_INPUT', `${minutes} minutes are no lag.`, {
    field: 'lagMinutes',
    remedy: `Whole minutes, at most ${mostLagMinutes}; below zero for an overlap.`,
  });
}

async function linkOf(manager: EntityManager, organisationId: string, id: string): Promise<Link> {
  return (
    (await manager.findOneBy(Link, { organisationId, id })) ??
    refuse('NOT_FOUND', 'There is no such link.', { field: 'id', remedy: 'Read the task’s links again.' })
  );
}

async function refuseDouble(manager: EntityManager, draft: LinkDraft, ownId: string | null): Promise<void> {
  const { beforeId, afterId, relation } = draft;
  const same = { beforeId, afterId, relation };
  if (!(await manager.existsBy(Link, ownId === null ? same : { ...same, id: Not(ownId) }))) return;
  refuse('ALREADY_EXISTS', 'These two are linked in this way already.', {
    field: 'relation',
    remedy: 'Change the lag of the link that is there, or choose another relation.',
  });
}

async function refuseCircle(manager: EntityManager, organisationId: string, draft: LinkDraft): Promise<void> {
  const links = await manager.findBy(Link, { organisationId });
  const circle = circleWith(
    links.map((link) => ({ before: link.beforeId, after: link.afterId })),
    { before: draft.beforeId, after: draft.afterId },
  );
  if (circle) await refuseRound(manager, circle);
}

async function refuseRound(manager: EntityManager, circle: readonly string[]): Promise<never> {
  const tasks = await manager.findBy(Task, { id: In(circle) });
  const title = new Map(tasks.map((task) => [task.id, task.title]));
  const names = circle.map((id) => title.get(id) ?? id);
  const shown = names.length > 8 ? [...names.slice(0, 4), '…', ...names.slice(-3)] : names;
  return refuse('LINK_CIRCLE', `These would wait for one another: ${[...shown, names[0]].join(' → ')}.`, {
    field: 'beforeId',
    remedy: 'Turn this link round, or remove one of those that lead from the first to the last.',
    facts: names.slice(0, 50).map((name, at) => ({ name: `${at + 1}`, value: name })),
  });
}
