import { overlap } from '../turnouts/relay-out.js';
import type { PlaceState } from './place.entity.js';

/** A seat that a plan wants posted. */
export interface SeatToPost {
  turnoutId: string;
  taskId: string;
  /** Null for a hand, whose level is 0. */
  skillId: string | null;
  level: number;
  /** What they do on an all-hands day, and the card that it asks for; nothing for every other seat. */
  role?: string | null;
  cardKindId?: string | null;
  /** Null for a place that is open. */
  volunteerId: string | null;
  /** Epoch milliseconds. */
  startsAt: number;
  endsAt: number;
  why: string | null;
  /** Beside whom they learn, over and above the crew; nobody for every other seat. */
  teacherId?: string | null;
}

/** A place as it stands. */
export interface StandingPlace extends Omit<SeatToPost, 'why'> {
  id: string;
  state: PlaceState;
}

export interface PlaceChanges {
  add: SeatToPost[];
  /** Ids of places nobody has said anything to, which are not wanted any more. */
  withdraw: string[];
}

/**
 * What posting changes, so that posting the same thing twice changes nothing the second time.
 *
 * A place that somebody took or left stays. Whoever left a place on a task is not asked for the same task at the same
 * turnout again: the seat is open instead. So is the seat of whoever has taken a place elsewhere at that time. A seat
 * that somebody took counts as filled, whoever the plan had in mind.
 */
export function reconcilePlaces(
  standing: readonly StandingPlace[],
  wanted: readonly SeatToPost[],
): PlaceChanges {
  const taken = standing.filter((place) => place.state === 'taken');
  const left = standing.filter((place) => place.state === 'left');
  const posted = new Set(standing.filter((place) => place.state === 'posted'));
  const used = new Set<StandingPlace>();
  const add: SeatToPost[] = [];
  const use = (place: StandingPlace | undefined): boolean => {
    if (!place) return false;
    used.add(place);
    return true;
  };
  const free = (places: Iterable<StandingPlace>, test: (place: StandingPlace) => boolean) =>
    [...places].find((place) => !used.has(place) && test(place));

  const named = wanted.filter((seat) => seat.volunteerId !== null);
  const open = wanted.filter((seat) => seat.volunteerId === null);
  const unmet = named.filter(
    (seat) => !use(free(taken, (place) => samePerson(place, seat) && overlap(place, seat))),
  );
  for (const seat of unmet) {
    const saidNo = left.some((place) => samePerson(place, seat));
    const elsewhere = taken.some((place) => place.volunteerId === seat.volunteerId && overlap(place, seat));
    // A learner's place is for nobody else.
    if (saidNo || elsewhere) {
      if (!seat.teacherId) open.push({ ...seat, volunteerId: null, why: null });
    } else if (
      !use(
        free(posted, (place) => samePerson(place, seat) && sameSeat(place, seat) && sameTimes(place, seat)),
      )
    )
      add.push(seat);
  }
  for (const seat of open) {
    if (use(free(taken, (place) => sameSeat(place, seat) && overlap(place, seat)))) continue;
    const isSame = (place: StandingPlace) =>
      place.volunteerId === null && sameSeat(place, seat) && sameTimes(place, seat);
    if (!use(free(posted, isSame))) add.push(seat);
  }
  return { add, withdraw: [...posted].filter((place) => !used.has(place)).map((place) => place.id) };
}

type Compared = Pick<
  SeatToPost,
  | 'turnoutId'
  | 'taskId'
  | 'skillId'
  | 'level'
  | 'role'
  | 'cardKindId'
  | 'volunteerId'
  | 'startsAt'
  | 'endsAt'
  | 'teacherId'
>;

const samePerson = (a: Compared, b: Compared): boolean =>
  a.turnoutId === b.turnoutId && a.taskId === b.taskId && a.volunteerId === b.volunteerId;

const sameSeat = (a: Compared, b: Compared): boolean =>
  a.turnoutId === b.turnoutId &&
  a.taskId === b.taskId &&
  a.skillId === b.skillId &&
  a.level === b.level &&
  (a.role ?? null) === (b.role ?? null) &&
  (a.cardKindId ?? null) === (b.cardKindId ?? null) &&
  (a.teacherId ?? null) === (b.teacherId ?? null);

const sameTimes = (a: Compared, b: Compared): boolean => a.startsAt === b.startsAt && a.endsAt === b.endsAt;
