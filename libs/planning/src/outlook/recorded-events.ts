import { AuditEntry } from '@ribband/access';
import { Volunteer } from '@ribband/crew';
import { effectiveTallies, haulOutInForce, TallyEntity, Task } from '@ribband/repair';
import { TurnoutEntity } from '@ribband/roster';
import { Between, In, type EntityManager } from 'typeorm';
import { kindOf } from '../beliefs/read-experience.js';
import { DayWords } from '../words/days.js';
import { eventWords, type Reason, toldOnce } from './event-words.js';
import { slowWork, type WorkDone } from './slow-work.js';

const mostEntries = 500;
const mostEvents = 5;

/**
 * What was recorded between two instants that moves a date, as clauses, newest last: by the trail, and where a note
 * carries its own words, by those. Work that went slower than the book stands before them: it says less.
 */
export async function recordedEvents(
  manager: EntityManager,
  organisationId: string,
  from: number,
  to: number,
): Promise<Reason[]> {
  const all = await manager.find(AuditEntry, {
    where: { organisationId, at: Between(from + 1, to) },
    order: { id: 'DESC' },
    take: mostEntries,
  });
  const entries = toldOnce(all.reverse());
  const haulOut = await haulOutInForce(manager, organisationId);
  const days = new DayWords(haulOut?.timeZone ?? 'UTC', haulOut?.hauledOutOn.slice(0, 4) ?? '');
  const ids = [...new Set(entries.flatMap(({ subjectId }) => subjectId ?? []))];
  const where = { organisationId, id: In(ids) };
  const names = new Map([
    ...(await manager.findBy(Volunteer, where)).map(({ id, name }) => [id, name] as const),
    ...(await manager.findBy(Task, where)).map(({ id, title }) => [id, title] as const),
    ...(await manager.findBy(TurnoutEntity, where)).map(
      ({ id, heldOn }) => [id, days.weekday(heldOn)] as const,
    ),
  ]);
  const told = eventWords(
    entries.map(({ operation, facts, subjectId }) => {
      return { operation, facts, subject: names.get(subjectId ?? '') ?? '' };
    }),
    days,
  );
  const slow = slowWork(await workDone(manager, organisationId, from, to));
  return [...slow, ...told].slice(-mostEvents);
}

/** What was tallied of each kind of counted work. */
async function workDone(
  manager: EntityManager,
  organisationId: string,
  from: number,
  to: number,
): Promise<WorkDone[]> {
  const rows = await manager.find(TallyEntity, {
    where: { organisationId, enteredAt: Between(from + 1, to) },
    order: { id: 'ASC' },
  });
  const tallies = effectiveTallies(rows).map(({ tally }) => tally);
  const tasks = await manager.findBy(Task, { id: In([...new Set(tallies.map(({ taskId }) => taskId))]) });
  const kinds = new Map(tasks.map((task) => [task.id, kindOf(task)]));
  const done = new Map<string, WorkDone>();
  for (const { taskId, count, minutes } of tallies) {
    const kind = kinds.get(taskId);
    if (!kind || count === null || minutes <= 0) continue;
    const { name, likely } = kind;
    const known = done.get(kind.key) ?? { name, likely, count: 0, hours: 0 };
    done.set(kind.key, { ...known, count: known.count + count, hours: known.hours + minutes / 60 });
  }
  return [...done.values()];
}
