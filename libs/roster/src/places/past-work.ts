import { addDays, instantToLocal } from '@ribband/platform';
import { Seat } from '@ribband/repair';
import { In, LessThanOrEqual, type EntityManager } from 'typeorm';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { entriesThatCount } from '../hours/hour.records.js';
import { yardDays } from '../turnouts/yard-days.js';
import { PlaceEntity } from './place.entity.js';

/** Who did what before, as far as a roster goes by it. */
export interface PastWork {
  /** Who has been on each task, by task. */
  onTask: ReadonlyMap<string, ReadonlySet<string>>;
  /** On how many days lately somebody had work that asks for no skill, by person. */
  dullDays: ReadonlyMap<string, number>;
}

/** How far back dull work is remembered: eight weeks. Common practice, no source. */
const daysBack = 56;

/**
 * What people have done, by the hours book and by places taken. A place counts where nobody kept the list of who came,
 * or where its person is on it.
 */
export async function pastWork(
  manager: EntityManager,
  organisationId: string,
  now: number,
): Promise<PastWork> {
  const zone = (await yardDays(manager, organisationId))?.timeZone ?? 'UTC';
  const dayOf = (at: number) => instantToLocal(at, zone).day;
  const places = await manager.findBy(PlaceEntity, {
    organisationId,
    state: 'taken',
    endsAt: LessThanOrEqual(now),
  });
  const came = await manager.findBy(AttendanceEntity, {
    organisationId,
    turnoutId: In([...new Set(places.map((place) => place.turnoutId))]),
  });
  const kept = new Set(came.map(({ turnoutId }) => turnoutId));
  const there = new Set(came.map(({ turnoutId, volunteerId }) => `${turnoutId} ${volunteerId}`));
  const done = places.flatMap(({ turnoutId, volunteerId, taskId, startsAt }) =>
    volunteerId !== null && (!kept.has(turnoutId) || there.has(`${turnoutId} ${volunteerId}`))
      ? [{ volunteerId, taskId, on: dayOf(startsAt) }]
      : [],
  );
  const hours = await entriesThatCount(manager, organisationId).andWhere('entry.minutes > 0').getMany();
  const worked = hours.map(({ volunteerId, taskId, workedOn }) => ({ volunteerId, taskId, on: workedOn }));
  const skilled = new Set((await manager.findBy(Seat, { organisationId })).map(({ taskId }) => taskId));
  return sumUp([...done, ...worked], skilled, addDays(dayOf(now), -daysBack));
}

function sumUp(
  done: readonly { volunteerId: string; taskId: string | null; on: string }[],
  skilled: ReadonlySet<string>,
  since: string,
): PastWork {
  const onTask = new Map<string, Set<string>>();
  const dull = new Map<string, Set<string>>();
  const add = (to: Map<string, Set<string>>, key: string, value: string) =>
    to.set(key, (to.get(key) ?? new Set<string>()).add(value));
  for (const { volunteerId, taskId, on } of done) {
    if (taskId !== null) add(onTask, taskId, volunteerId);
    if (on >= since && (taskId === null || !skilled.has(taskId))) add(dull, volunteerId, on);
  }
  return { onTask, dullDays: new Map([...dull].map(([id, days]) => [id, days.size])) };
}
