import { compareExpansions, type ExpansionChange, type MethodTask } from '@ribband/hull';
import { CardKind, idsByRef, insertAll, known, Skill } from '@ribband/crew';
import { newId } from '@ribband/platform';
import { In, type EntityManager } from 'typeorm';
import type { OpeningLimitDocument, TaskDocument } from '../document/repair-document.js';
import { Link } from '../links/link.entity.js';
import { HullElement } from '../openings/hull-element.entity.js';
import { OpeningLimit } from '../openings/opening-limit.entity.js';
import type { RosterView } from '../roster-view/roster-view.js';
import { withKeys } from '../tasks/task-row.js';
import type { TaskDraft } from '../tasks/task-draft.js';
import { insertTask, overwriteTask, setDropped } from '../tasks/task-writing.js';
import { readDraft } from '../tasks/task.records.js';
import { Task } from '../tasks/task.entity.js';
import { Tool } from '../tools/tool.entity.js';
import { writeOrigins } from './origins.js';
import { TaskOrigin } from './task-origin.entity.js';
import { taskOf } from './task-of.js';
import { linkKey, type Made } from './work-out.js';

export interface WritingMade {
  organisationId: string;
  roster: RosterView;
  /** Epoch milliseconds by the real clock. */
  now: number;
  /** Said of every task that is asked for no longer. */
  dropReason: string;
}

/**
 * Brings the records from what the methods made last to what they make now, and touches nothing else: what was
 * changed by hand stays unless the methods say something new of that very field. No task is erased: those that are
 * asked for no longer are dropped, with their tallies, and come back with them when they are asked for again.
 * @throws RefusalError where a task does not hold at this yard
 */
export async function writeMade(
  manager: EntityManager,
  before: Made,
  after: Made,
  around: WritingMade,
): Promise<ExpansionChange> {
  const { organisationId, now, dropReason, roster } = around;
  const change = compareExpansions(before, after);
  await writeElements(manager, organisationId, after);
  await writeLimits(manager, before, after, around);
  const keys = await keysOf(manager, organisationId);
  const rows = new Map((await manager.findBy(Task, { organisationId })).map((task) => [task.ref, task]));
  for (const ref of change.dropped) {
    const task = rows.get(ref);
    if (task?.droppedAt === null) await setDropped(manager, task, dropReason, now);
  }
  const made = new Map(after.tasks.map((task) => [task.ref, task]));
  const origins: MethodTask[] = [];
  for (const { ref, fields } of change.changed) {
    const task = rows.get(ref);
    if (!task || task.droppedAt !== null) continue;
    origins.push(made.get(ref)!);
    const changes = pick(withKeys(taskOf(made.get(ref)!), keys), fields);
    if (Object.keys(changes).length === 0) continue;
    await overwriteTask(manager, roster, task, { ...(await readDraft(manager, task)), ...changes });
  }
  for (const ref of change.added) {
    const task = rows.get(ref);
    // What the yard has entered itself under this name stands.
    if (task?.droppedAt === null) continue;
    origins.push(made.get(ref)!);
    const draft = withKeys(taskOf(made.get(ref)!), keys);
    if (task) await overwriteTask(manager, roster, task, draft);
    else rows.set(ref, await insertTask(manager, roster, organisationId, ref, draft));
  }
  const idOf = (ref: string): string => rows.get(ref)!.id;
  await manager.delete(TaskOrigin, { taskId: In(origins.map(({ ref }) => idOf(ref))) });
  await writeOrigins(manager, organisationId, origins, idOf);
  await writeLinks(manager, organisationId, before, after, rows);
  return change;
}

/** Fields of a draft that a field of a method's task decides. */
const decides: Partial<Record<string, keyof TaskDocument>> = { noticeDays: 'cautions' };

function pick(draft: TaskDraft, fields: readonly string[]): Partial<TaskDraft> {
  const names = new Set(fields.map((field) => decides[field] ?? field));
  return Object.fromEntries(Object.entries(draft).filter(([name]) => names.has(name)));
}

async function keysOf(
  manager: EntityManager,
  organisationId: string,
): Promise<Parameters<typeof withKeys>[1]> {
  const skills = await idsByRef(manager, Skill, organisationId);
  const cards = await idsByRef(manager, CardKind, organisationId);
  const tools = await idsByRef(manager, Tool, organisationId);
  const elements = await idsByRef(manager, HullElement, organisationId);
  return {
    skill: (ref) => known(skills, ref),
    card: (ref) => known(cards, ref),
    tool: (ref) => known(tools, ref),
    element: (ref) => known(elements, ref),
  };
}

/** Elements stay once they are there: what was done on them hangs on their keys. */
async function writeElements(manager: EntityManager, organisationId: string, after: Made): Promise<void> {
  const there = await idsByRef(manager, HullElement, organisationId);
  await insertAll(
    manager,
    HullElement,
    after.elements
      .filter(({ ref }) => !there.has(ref))
      .map((element) => ({ id: newId('element'), organisationId, ...element })),
  );
  for (const { ref, ...element } of after.elements)
    if (there.has(ref)) await manager.update(HullElement, { organisationId, ref }, element);
}

/** A limit that somebody has set aside by hand stays set aside while it is the same limit. */
async function writeLimits(
  manager: EntityManager,
  before: Made,
  after: Made,
  { organisationId, now }: WritingMade,
): Promise<void> {
  const ids = await idsByRef(manager, HullElement, organisationId);
  const old = new Map(before.openingLimits.map((limit) => [limit.ref, JSON.stringify(limit)]));
  const wanted = new Set(after.openingLimits.map(({ ref }) => ref));
  const gone = [...old.keys()].filter((ref) => !wanted.has(ref));
  if (gone.length > 0) await manager.delete(OpeningLimit, { organisationId, ref: In(gone) });
  const there = await idsByRef(manager, OpeningLimit, organisationId);
  const columns = ({ name, elements, atMost, basis, override }: OpeningLimitDocument) => ({
    name,
    elementIds: elements.map((element) => known(ids, element)),
    atMost,
    basis,
    overrideBy: override?.by ?? null,
    overrideReason: override?.reason ?? null,
    overriddenAt: override ? now : null,
  });
  for (const limit of after.openingLimits) {
    if (old.get(limit.ref) === JSON.stringify(limit) && there.has(limit.ref)) continue;
    if (there.has(limit.ref)) {
      const { version } = await manager.findOneByOrFail(OpeningLimit, { id: known(there, limit.ref) });
      await manager.update(
        OpeningLimit,
        { id: known(there, limit.ref) },
        { ...columns(limit), version: version + 1 },
      );
    } else
      await manager.insert(OpeningLimit, {
        id: newId('limit'),
        organisationId,
        ref: limit.ref,
        version: 1,
        ...columns(limit),
      });
  }
}

/** Links that are asked for no longer go, new ones come; those between other tasks and those made by hand stay. */
async function writeLinks(
  manager: EntityManager,
  organisationId: string,
  before: Made,
  after: Made,
  rows: ReadonlyMap<string, Task>,
): Promise<void> {
  const text = (link: Made['links'][number]): string => JSON.stringify(link);
  const [old, now] = [new Set(before.links.map(text)), new Set(after.links.map(text))];
  const refs = new Map([...rows.values()].map(({ id, ref }) => [id, ref]));
  const there = new Map(
    (await manager.findBy(Link, { organisationId })).map((link) => [
      linkKey({
        before: refs.get(link.beforeId) ?? '',
        after: refs.get(link.afterId) ?? '',
        relation: link.relation,
      }),
      link,
    ]),
  );
  const goes = before.links.filter((link) => !now.has(text(link)));
  const gone = goes.flatMap((link) => {
    const row = there.get(linkKey(link));
    // Its lag may have been changed by hand; then it is the yard's own.
    return row?.lagMinutes === link.lagMinutes && row.lagKind === link.lagKind ? [row.id] : [];
  });
  if (gone.length > 0) await manager.delete(Link, { id: In(gone) });
  const taken = new Set([...there].filter(([, row]) => !gone.includes(row.id)).map(([key]) => key));
  await insertAll(
    manager,
    Link,
    after.links
      .filter((link) => !old.has(text(link)) && !taken.has(linkKey(link)))
      .filter((link) => rows.has(link.before) && rows.has(link.after))
      .map(({ before: first, after: next, ...link }) => ({
        id: newId('link'),
        organisationId,
        version: 1,
        beforeId: rows.get(first)!.id,
        afterId: rows.get(next)!.id,
        ...link,
      })),
  );
}
