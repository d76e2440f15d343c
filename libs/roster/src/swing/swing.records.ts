import { In, IsNull, type EntityManager } from 'typeorm';
import type { PlaceEntity } from '../places/place.entity.js';
import { SwingHandEntity } from './swing-hand.entity.js';

/** Who was asked to stand by at some turnouts, those who said no among them. */
export function swingAt(
  manager: EntityManager,
  organisationId: string,
  turnoutIds: readonly string[],
): Promise<SwingHandEntity[]> {
  return manager.find(SwingHandEntity, {
    where: { organisationId, turnoutId: In([...turnoutIds]) },
    order: { id: 'ASC' },
  });
}

/** Ids of turnouts at which somebody stands by. */
export async function standsByAt(
  manager: EntityManager,
  organisationId: string,
  volunteerId: string,
): Promise<Set<string>> {
  const rows = await manager.findBy(SwingHandEntity, { organisationId, volunteerId, leftAt: IsNull() });
  return new Set(rows.map(({ turnoutId }) => turnoutId));
}

/** Whether an open place is one that somebody left: the same seat at the same time. */
export const isFreed = (open: PlaceEntity, places: readonly PlaceEntity[]): boolean =>
  places.some(
    (place) =>
      place.state === 'left' &&
      place.turnoutId === open.turnoutId &&
      place.taskId === open.taskId &&
      place.skillId === open.skillId &&
      place.level === open.level &&
      place.startsAt === open.startsAt &&
      place.endsAt === open.endsAt,
  );
