import type { Finding } from '@ribband/crew';
import { withoutCrewSize } from '../places/under-way.js';
import type { GateBook, SeatedAt } from '../places/gate-book.js';

/** A seat that somebody takes at a called turnout. */
export interface CalledSeat extends SeatedAt {
  volunteerId: string;
  /** What they do on an all-hands day; nothing for every other seat. */
  role?: string | null;
}

/** What a task needs so that work on it may start. */
export interface LeastCrew {
  hands: number;
  /** How many carry its heaviest piece; 1 where none is to be carried. */
  carriers: number;
  /** Seats that must all be filled: skill, level and how many. */
  seats: readonly { skillId: string; level: number; count: number }[];
}

/** Why a seat of a called roster is not given. */
export type Lost =
  | { kind: 'gate'; seat: CalledSeat; findings: Finding[] }
  /** The hull must wait, the task is held or was dropped: nobody is on it. */
  | { kind: 'closed'; seat: CalledSeat; words: string }
  /** The crew is too small without those who were turned away. */
  | { kind: 'short'; seat: CalledSeat; words: string };

export interface SettledSeats {
  kept: CalledSeat[];
  lost: Lost[];
}

export interface SeatRules {
  book: Pick<GateBook, 'findings' | 'job' | 'isSetAside'>;
  /** What closes work whoever is on it, by task: the hull, a permit, a tag, the weather, nobody with a first-aid card. */
  stops: ReadonlyMap<string, readonly Finding[]>;
  least: ReadonlyMap<string, LeastCrew>;
}

/**
 * Runs every gate over a called roster, with all the others as company, until nothing falls out any more: who learns
 * beside somebody who is turned away can't stay, and a crew that is too small does not start. Pure but for the book.
 */
export function settleSeats(wanted: readonly CalledSeat[], { book, stops, least }: SeatRules): SettledSeats {
  const lost: Lost[] = [];
  let kept = wanted.filter((seat) => {
    const words = book.job(seat.taskId)?.closed ?? closedWords(stops.get(seat.taskId));
    if (words === undefined) return true;
    lost.push({ kind: 'closed', seat, words });
    return false;
  });
  for (;;) {
    const before = kept;
    kept = before.filter((seat) => {
      // How many are on it is asked of the crew below, not of each of them.
      const findings = withoutCrewSize(book.findings(seat.volunteerId, seat, before)).filter(
        ({ weight }) => weight === 'stop',
      );
      if (findings.length > 0) lost.push({ kind: 'gate', seat, findings });
      return findings.length === 0;
    });
    const short = new Map(
      [...new Set(kept.map(({ taskId }) => taskId))].flatMap((taskId) => {
        const crew = kept.filter((seat) => seat.taskId === taskId);
        const words = shortOf(crew, least.get(taskId), (rule) =>
          crew.every((seat) => book.isSetAside(rule, seat)),
        );
        return words === null ? [] : [[taskId, words] as const];
      }),
    );
    kept = kept.filter((seat) => {
      const words = short.get(seat.taskId);
      if (words !== undefined) lost.push({ kind: 'short', seat, words });
      return words === undefined;
    });
    if (kept.length === before.length) return { kept, lost };
  }
}

/** Why nobody may be on it, all reasons taken together. */
export const closedWords = (stops: readonly Finding[] | undefined): string | undefined =>
  stops?.length ? stops.map(({ words }) => words).join(' ') : undefined;

/** What a crew lacks at the moment at which most of it is there, or null. */
function shortOf(
  crew: readonly CalledSeat[],
  least: LeastCrew | undefined,
  isSetAside: (rule: 'minimum-crew' | 'carriers') => boolean,
): string | null {
  if (!least) return null;
  const together = crew
    .map(({ startsAt }) => crew.filter((seat) => seat.startsAt <= startsAt && startsAt < seat.endsAt))
    .sort((a, b) => b.length - a.length)[0];
  const hands = new Set(together?.map(({ volunteerId }) => volunteerId)).size;
  if (hands < least.carriers && !isSetAside('carriers'))
    return `${least.carriers} carry its heaviest piece, and ${hands} could be on it.`;
  if (hands < least.hands && !isSetAside('minimum-crew'))
    return `It takes ${least.hands} people at once, and ${hands} could be on it.`;
  const unfilled = least.seats.find(
    ({ skillId, level, count }) =>
      (together ?? []).filter((seat) => seat.skillId === skillId && seat.level >= level).length < count,
  );
  return unfilled ? 'A seat that needs its skill is not filled.' : null;
}
