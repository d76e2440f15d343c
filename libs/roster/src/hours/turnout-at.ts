import { In, type EntityManager } from 'typeorm';
import { PlaceEntity } from '../places/place.entity.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

/** How long before and after its hours a turnout still is where somebody signs on. */
export const aroundMillis = 3 * 3_600_000;

/**
 * The turnout at which somebody is at an instant: the nearest one that is not called off, and where a watch goes on
 * meanwhile the one at which they have a place.
 */
export async function turnoutAt(
  manager: EntityManager,
  organisationId: string,
  at: number,
  volunteerId: string,
): Promise<TurnoutEntity | null> {
  const near = await manager
    .createQueryBuilder(TurnoutEntity, 'turnout')
    .where('turnout.organisationId = :organisationId', { organisationId })
    .andWhere('turnout.cancelledAt IS NULL')
    .andWhere('turnout.startsAt <= :latest', { latest: at + aroundMillis })
    .andWhere('turnout.endsAt >= :earliest', { earliest: at - aroundMillis })
    .orderBy('turnout.startsAt')
    .getMany();
  const distance = (turnout: TurnoutEntity) => Math.max(0, turnout.startsAt - at, at - turnout.endsAt);
  const places = await manager.findBy(PlaceEntity, {
    volunteerId,
    turnoutId: In(near.map(({ id }) => id)),
    state: In(['posted', 'taken']),
  });
  const held = new Set(places.map(({ turnoutId }) => turnoutId));
  // A usual turnout before a watch at which one has no place.
  const strange = ({ id, kind }: TurnoutEntity) => (held.has(id) ? 0 : kind === null ? 1 : 2);
  return near.sort((a, b) => distance(a) - distance(b) || strange(a) - strange(b))[0] ?? null;
}
