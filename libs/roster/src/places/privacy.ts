import type { Caller } from '@ribband/access';
import type { PlaceEntity } from './place.entity.js';

/** Volunteers see names on a roster and nothing else of others. */
const isStaff = (caller: Caller): boolean => caller.role !== 'volunteer';

/** Whether the caller may read why a person was chosen for a place: it may speak of skills. */
export function mayReadWhy(caller: Caller, place: Pick<PlaceEntity, 'volunteerId'>): boolean {
  return isStaff(caller) || (place.volunteerId !== null && place.volunteerId === caller.volunteerId);
}

/** The places of a turnout that the caller may see: who said no is nobody's business but the coordinator's. */
export function seenPlaces(caller: Caller, places: readonly PlaceEntity[]): PlaceEntity[] {
  return places.filter(
    (place) => isStaff(caller) || place.state !== 'left' || place.volunteerId === caller.volunteerId,
  );
}
