import type { Minute } from '@ribband/engine';
import type { ToldPlan } from '../../plans/told-plan.js';
import { overlaps, type WeekSeat } from './seats-of-week.js';

/** What one person does at one turnout: seats one after the other. */
export interface SeatsInARow {
  turnout: number;
  seats: WeekSeat[];
  /** Whom the plan has on all of them; null where they were put together by hand. */
  planned: number | null;
  fixed: number | null;
}

/**
 * The seats of a week as berths: what the plan gives to the same hands stays together, but for what the coordinator has
 * fixed. Whoever is fixed to a seat keeps the seats with it that they may hold; the others of it are a berth by
 * themselves. Room that the plan leaves open is a berth only where somebody is fixed to it.
 * @param fixed people by the key of the seat
 * @param may whether somebody may hold a seat
 * @param split keys of first seats of berths that nobody could take whole: each of their seats goes alone
 */
export function berthsOf(
  seats: readonly WeekSeat[],
  fixed: ReadonlyMap<string, number>,
  may: (person: number, seat: WeekSeat) => boolean,
  split: ReadonlySet<string>,
): SeatsInARow[] {
  const groups = grouped(
    seats.filter((seat) => seat.planned !== null && !fixed.has(seat.key)),
    (seat) => `${seat.turnout} ${String(seat.planned)}`,
  );
  const held = grouped(
    seats.filter((seat) => fixed.has(seat.key)),
    (seat) => `${seat.turnout} ${String(fixed.get(seat.key))}`,
  );
  const byHand = [...held.values()].map((theirs): SeatsInARow => {
    const person = fixed.get(theirs[0]?.key ?? '') ?? null;
    const row = [...theirs];
    for (const { turnout, planned } of theirs) {
      const key = `${turnout} ${String(planned)}`;
      const rest = groups.get(key) ?? [];
      const fits = (seat: WeekSeat) =>
        person !== null && may(person, seat) && !row.some((one) => overlaps(one, seat));
      if (planned === null || rest.length === 0 || !rest.every(fits)) continue;
      row.push(...rest);
      groups.delete(key);
    }
    return { turnout: row[0]?.turnout ?? 0, seats: inTime(row), planned: null, fixed: person };
  });
  const byPlan = [...groups.values()].flatMap((row): SeatsInARow[] => {
    const whole = { turnout: row[0]?.turnout ?? 0, planned: row[0]?.planned ?? null, fixed: null };
    return split.has(row[0]?.key ?? '')
      ? row.map((seat) => ({ ...whole, seats: [seat] }))
      : [{ ...whole, seats: inTime(row) }];
  });
  return [...byHand, ...byPlan];
}

/** In the order in which they are to be filled: what the launch waits for first, skills before hands, extra hands last. */
export function byUrgency(told: ToldPlan, berths: readonly SeatsInARow[]): SeatsInARow[] {
  const urgencyOf = ({ seats }: SeatsInARow): number[] => [
    Number(seats.every((seat) => seat.isExtra)),
    Math.min(...seats.map((seat) => told.plan?.tasks[seat.task]?.float ?? 0)),
    Number(seats.every((seat) => seat.seat === null)),
    seats[0]?.start ?? 0,
  ];
  return berths
    .map((berth) => ({ berth, urgency: urgencyOf(berth), key: berth.seats[0]?.key ?? '' }))
    .sort((a, b) => {
      const at = a.urgency.findIndex((part, i) => part !== b.urgency[i]);
      return at < 0 ? a.key.localeCompare(b.key) : (a.urgency[at] ?? 0) - (b.urgency[at] ?? 0);
    })
    .map(({ berth }) => berth);
}

/** Working minutes of a berth. */
export const minutesOf = ({ seats }: SeatsInARow): Minute =>
  seats.reduce((sum, { start, end }) => sum + end - start, 0);

const inTime = (seats: readonly WeekSeat[]): WeekSeat[] =>
  [...seats].sort((a, b) => a.start - b.start || a.key.localeCompare(b.key));

function grouped(seats: readonly WeekSeat[], keyOf: (seat: WeekSeat) => string): Map<string, WeekSeat[]> {
  const groups = new Map<string, WeekSeat[]>();
  for (const seat of seats) groups.set(keyOf(seat), [...(groups.get(keyOf(seat)) ?? []), seat]);
  return groups;
}
