import { type CrewHand, cardCountsOn, crewHands, watchMinutes, type WatchedFire } from '@ribband/crew';
import { instantToLocal } from '@ribband/platform';
import { hazardsOf, Task } from '@ribband/repair';
import { In, IsNull, Not, type EntityManager } from 'typeorm';
import { entriesThatCount } from '../hours/hour.records.js';
import { yardFactsOn } from '../places/facts.js';
import { PlaceEntity } from '../places/place.entity.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { yardDays } from '../turnouts/yard-days.js';
import { FireWatchEntity } from './fire-watch.entity.js';

/** One piece of hot work at one turnout, and its watch as far as it is written down. */
export interface Fire {
  turnout: TurnoutEntity;
  task: Task;
  zone: string;
  /** Minutes for which the watch stays. */
  minutes: number;
  /** As it was written each time, the newest first. */
  written: FireWatchEntity[];
  /** Who has a place on it and a card for the watch that counts that day. */
  couldWatch: string[];
  /** Whether the named watch has such a card; null where nobody is named. */
  hasCard: boolean | null;
}

/**
 * The hot work of some turnouts: of whoever is down for it or has hours on it, and what was written down of its watch.
 * Tasks that were dropped before the turnout began are left out, where nobody wrote of them.
 */
export async function firesAt(
  manager: EntityManager,
  organisationId: string,
  turnouts: readonly TurnoutEntity[],
): Promise<Fire[]> {
  const turnoutId = In(turnouts.map(({ id }) => id));
  const places = await manager.findBy(PlaceEntity, {
    ...{ organisationId, turnoutId, state: In(['posted', 'taken']), volunteerId: Not(IsNull()) },
  });
  const hours = await entriesThatCount(manager, organisationId)
    .andWhere('entry.turnoutId IN (:...ids)', { ids: ['', ...turnouts.map(({ id }) => id)] })
    .andWhere('entry.taskId IS NOT NULL')
    .getMany();
  const rows = await manager.find(FireWatchEntity, {
    where: { organisationId, turnoutId },
    order: { version: 'DESC' },
  });
  const worked = [...places, ...hours, ...rows];
  const tasks = await manager.find(Task, {
    where: { organisationId, id: In([...new Set(worked.map(({ taskId }) => taskId ?? ''))]) },
    order: { id: 'ASC' },
  });
  const people = [...places, ...rows.map(({ watchId }) => ({ volunteerId: watchId }))];
  const hands = await crewHands(manager, organisationId, [
    ...new Set(people.flatMap(({ volunteerId }) => volunteerId ?? [])),
  ]);
  const facts = await yardFactsOn(manager, organisationId, [...new Set(turnouts.map((one) => one.heldOn))]);
  const zone = (await yardDays(manager, organisationId))?.timeZone ?? 'UTC';
  return turnouts.flatMap((turnout) => {
    const yard = facts(turnout.heldOn);
    const holdsCard = (hand: CrewHand | undefined) =>
      hand?.cards.some(
        (card) => yard.fireWatchKinds.has(card.kindId) && cardCountsOn(card, turnout.heldOn),
      ) ?? false;
    const handOf = (id: string | null) => hands.find((hand) => hand.id === id);
    return tasks.flatMap((task): Fire[] => {
      const here = (one: { turnoutId: string | null; taskId: string | null }) =>
        one.turnoutId === turnout.id && one.taskId === task.id;
      const written = rows.filter(here);
      const isDropped = task.droppedAt !== null && task.droppedAt <= turnout.startsAt;
      const isHot = !isDropped && hazardsOf(task).includes('hot-work') && worked.some(here);
      if (!isHot && written.length === 0) return [];
      const couldWatch = places.filter(here).flatMap(({ volunteerId }) => volunteerId ?? []);
      const watchId = written[0]?.watchId ?? null;
      return [
        {
          ...{ turnout, task, zone, written, minutes: watchMinutes(yard) },
          couldWatch: [...new Set(couldWatch)].filter((id) => holdsCard(handOf(id))),
          hasCard: watchId === null ? null : holdsCard(handOf(watchId)),
        },
      ];
    });
  });
}

/** Until when the watch stays; null where the last spark is not written down. */
export function staysUntil({ minutes, written: [now] }: Pick<Fire, 'minutes' | 'written'>): number | null {
  const spark = now?.lastSparkAt ?? null;
  return spark === null ? null : spark + minutes * 60_000;
}

/** As the closing of the turnout asks it; null where no hot work was done. */
export function watchedFire(fire: Fire): WatchedFire | null {
  const [now] = fire.written;
  if ((now?.notLit ?? null) !== null) return null;
  const { title } = fire.task;
  return { title, staysUntil: staysUntil(fire), look: now ? lookOf(now, fire.zone) : null };
}

function lookOf(now: FireWatchEntity, zone: string): WatchedFire['look'] {
  if (now.lookedAt !== null) return 'taken';
  if (now.lookDueAt === null) return null;
  const { day, time } = instantToLocal(now.lookDueAt, zone);
  return { toCome: `${now.lookBy ?? ''} at ${time} on ${day}` };
}

/** The watch of a fire in one line, for the closing round: times with their day where it is not the turnout's. */
export function sayWatch({ written: [now], zone, ...fire }: Fire, nameOf: (id: string) => string): string {
  if (!now) return 'nothing is written down';
  if (now.notLit !== null) return `no hot work was done: ${now.notLit}`;
  const at = (instant: number) => {
    const { day, time } = instantToLocal(instant, zone);
    return day === fire.turnout.heldOn ? time : `${time} on ${day}`;
  };
  const until = staysUntil({ ...fire, written: [now] });
  const stood = `${now.watchId === null ? '' : nameOf(now.watchId)}${until === null ? '' : `, until ${at(until)}`}`;
  const look = lookOf(now, zone);
  if (look === 'taken')
    return `${stood}; later look at ${at(now.lookedAt ?? 0)} by ${now.lookBy ?? ''}: ${now.found ?? ''}`;
  return look === null ? `${stood}; no later look` : `${stood}; later look to come: ${look.toCome}`;
}
