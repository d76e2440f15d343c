import { refuse } from '@ribband/platform';
import type { HeldSeat } from './make-roster.js';
import { oneAtATime, overlaps, sameAs, type WeekSeat } from './seats-of-week.js';
import type { RosterBasis } from './told-roster.js';

/** Somebody on a place of the week, as the coordinator has it. */
export interface PlacedHand {
  /** The place's key. */
  key: string;
  volunteerId: string;
  /** Whether they stay there when another roster is proposed. */
  fixed: boolean;
}

/** The most places of one week. */
export const mostPlaced = 2000;

/**
 * The seats of a week with those who were put on them.
 * @throws RefusalError BAD_INPUT for places or people that there are not, and for somebody in two places at once
 */
export function heldAs(basis: RosterBasis, placed: readonly PlacedHand[]): HeldSeat[] {
  if (placed.length > mostPlaced)
    refuse('BAD_INPUT', `A week has at most ${mostPlaced} places.`, { field: 'places' });
  const byKey = new Map<string, { person: number; fixed: boolean }>();
  placed.forEach(({ key, volunteerId, fixed }, i) => {
    seatOf(basis, key, `places.${i}.key`);
    const person = personOf(basis, volunteerId, `places.${i}.volunteerId`);
    if (byKey.has(key)) refuse('BAD_INPUT', 'The same place is given twice.', { field: `places.${i}.key` });
    byKey.set(key, { person, fixed });
  });
  const held = basis.seats.map((seat): HeldSeat => {
    const one = byKey.get(seat.key);
    return { seat, person: one?.person ?? null, isFixed: one?.fixed ?? false };
  });
  refuseTwice(basis, held);
  return held;
}

/**
 * Of places that another plan may have had: where the marked ones are in this, with how many are nowhere any more. A
 * place is the same where its work, what it asks for and its time are; its number among the others may be another.
 */
export function stillHeld(
  { told, seats }: Pick<RosterBasis, 'told' | 'seats'>,
  placed: readonly PlacedHand[],
): { fixed: Map<string, number>; lost: number } {
  const index = new Map(told.problem.people.map(({ id }, person) => [id, person]));
  const wanted = placed.filter(({ fixed }) => fixed);
  const known = wanted.flatMap(({ key, volunteerId }) => {
    const person = index.get(volunteerId);
    return person === undefined ? [] : [{ key, person }];
  });
  const keys = new Set(seats.map(({ key }) => key));
  const found = new Map(known.flatMap(({ key, person }) => (keys.has(key) ? [[key, person]] : [])));
  for (const { key, person } of known) {
    if (keys.has(key)) continue;
    const same = seats.filter((seat) => !found.has(seat.key) && sameAs(seat.key, key));
    const seat = same.find(({ planned }) => planned === person) ?? same[0];
    if (seat) found.set(seat.key, person);
  }
  const fixed = oneAtATime(seats, found);
  return { fixed, lost: wanted.length - fixed.size };
}

/**
 * Of places that were kept: those that are still to be filled, with how many are not, because their turnout is over or
 * called off, or their work is left out.
 */
export function stillToFill(
  { told, seats }: Pick<RosterBasis, 'told' | 'seats'>,
  placed: readonly PlacedHand[],
): { places: PlacedHand[]; lost: number } {
  const keys = new Set(seats.map(({ key }) => key));
  const ids = new Set(told.problem.people.map(({ id }) => id));
  const places = placed.filter(({ key, volunteerId }) => keys.has(key) && ids.has(volunteerId));
  return { places, lost: placed.length - places.length };
}

export function seatOf({ seats }: Pick<RosterBasis, 'seats'>, key: string, field: string): WeekSeat {
  const seat = seats.find((one) => one.key === key);
  return (
    seat ??
    refuse('BAD_INPUT', 'There is no such place in this week.', {
      field,
      remedy: 'Give the key of a place of the week as it is proposed now.',
    })
  );
}

export function personOf({ told }: Pick<RosterBasis, 'told'>, volunteerId: string, field: string): number {
  const person = told.problem.people.findIndex(({ id }) => id === volunteerId);
  return person >= 0
    ? person
    : refuse('BAD_INPUT', 'There is no such person in the crew.', {
        field,
        remedy: 'Give the id of somebody in the crew.',
      });
}

function refuseTwice({ told }: RosterBasis, held: readonly HeldSeat[]): void {
  const taken = held.filter(({ person }) => person !== null);
  for (const [i, one] of taken.entries())
    for (const other of taken.slice(i + 1))
      if (one.person === other.person && overlaps(one.seat, other.seat))
        refuse(
          'BAD_INPUT',
          `${told.problem.people[one.person ?? -1]?.name ?? ''} is in two places at once.`,
          {
            field: 'places',
            remedy: 'Give each of them one place at a time.',
          },
        );
}
