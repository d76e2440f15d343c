import type { PlaceEntity } from './place.entity.js';

export interface PlaceStanding {
  isOnLaunchChain: boolean;
  /** Who is on the work by then. */
  hands: number;
  crewMin: number;
  /** Others of the crew who have the level that the place asks for; endless where it asks for none. */
  othersWhoCan: number;
}

/** Why a place is worth more than another, the weightiest first. The more reasons, the more useful. */
export function usefulness(place: Pick<PlaceEntity, 'skillId'>, standing: PlaceStanding): string[] {
  const { isOnLaunchChain, hands, crewMin, othersWhoCan } = standing;
  const short = crewMin - hands;
  const cannotStart =
    place.skillId !== null
      ? ['It can’t start before this seat is filled.']
      : short > 0
        ? [short === 1 ? 'With one more it can start.' : `It can start with ${short} more.`]
        : [];
  return [
    ...(isOnLaunchChain ? ['The launch waits for this work.'] : []),
    ...cannotStart,
    ...(othersWhoCan <= 0
      ? ['Nobody else in the crew can.']
      : othersWhoCan === 1
        ? ['Only one other in the crew can.']
        : []),
  ];
}
