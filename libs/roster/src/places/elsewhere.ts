import { In, IsNull, LessThan, MoreThan, Not, type EntityManager } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { PlaceEntity } from './place.entity.js';

/**
 * What some people have taken or are asked to within a span, whatever the turnout: a watch goes on while a turnout does.
 * Turnouts that were called off bind nobody.
 */
export async function placesDuring(
  manager: EntityManager,
  organisationId: string,
  volunteerIds: readonly string[],
  { startsAt, endsAt }: { startsAt: number; endsAt: number },
): Promise<PlaceEntity[]> {
  const places = await manager.find(PlaceEntity, {
    where: {
      organisationId,
      volunteerId: In([...volunteerIds]),
      state: In(['posted', 'taken']),
      startsAt: LessThan(endsAt),
      endsAt: MoreThan(startsAt),
    },
    order: { startsAt: 'ASC', id: 'ASC' },
  });
  const off = await manager.findBy(TurnoutEntity, {
    id: In([...new Set(places.map(({ turnoutId }) => turnoutId))]),
    cancelledAt: Not(IsNull()),
  });
  const calledOff = new Set(off.map(({ id }) => id));
  return places.filter(({ turnoutId }) => !calledOff.has(turnoutId));
}
