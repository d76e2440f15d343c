import type { CrewHand } from '@ribband/crew';
import { In, IsNull, type EntityManager } from 'typeorm';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { PlaceEntity } from './place.entity.js';

/** Turnouts at which somebody has a place, by person and month: 'volunteer_... 2027-03'. */
export type OtherTurnouts = ReadonlyMap<string, ReadonlySet<string>>;

export const monthOf = (day: string): string => day.slice(0, 7);

/**
 * Where those who come only so often a month have places beside the turnouts that are looked at. Nothing is read where
 * nobody has asked for a cap.
 */
export async function otherTurnouts(
  manager: EntityManager,
  organisationId: string,
  hands: readonly Pick<CrewHand, 'id' | 'turnoutsAMonth'>[],
  days: ReadonlyMap<string, string>,
): Promise<OtherTurnouts> {
  const capped = hands.filter((hand) => hand.turnoutsAMonth !== null).map((hand) => hand.id);
  if (capped.length === 0) return new Map();
  const places = await manager.findBy(PlaceEntity, {
    organisationId,
    volunteerId: In(capped),
    state: In(['posted', 'taken']),
  });
  const ids = [...new Set(places.map((place) => place.turnoutId))].filter((id) => !days.has(id));
  const turnouts = await manager.findBy(TurnoutEntity, { id: In(ids), cancelledAt: IsNull() });
  const heldOn = new Map(turnouts.map((turnout) => [turnout.id, turnout.heldOn]));
  const found = new Map<string, Set<string>>();
  for (const { volunteerId, turnoutId } of places) {
    const on = heldOn.get(turnoutId);
    if (volunteerId === null || on === undefined) continue;
    const key = `${volunteerId} ${monthOf(on)}`;
    const group = found.get(key);
    if (group) group.add(turnoutId);
    else found.set(key, new Set([turnoutId]));
  }
  return found;
}
