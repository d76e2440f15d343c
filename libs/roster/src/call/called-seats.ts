import type { Finding } from '@ribband/crew';
import type { Refusal } from '@ribband/platform';
import type { GateBook, SeatedAt } from '../places/gate-book.js';

/** A seat that somebody takes at a called turnout. */
export interface CalledSeat extends SeatedAt {
  volunteerId: string;
}

/** What a task needs so that work on it may start. */
export interface LeastCrew {
  hands: number;
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
  book: Pick<GateBook, 'findings' | 'job'>;
  /** Why the hull must wait, by task. */
  stops: ReadonlyMap<string, readonly Refusal[]>;
  least: ReadonlyMap<string, LeastCrew>;
}

/**
 * Runs every gate over a called roster, with all the others as company, until nothing falls out any more: who learns
 * beside somebody who is turned away can't stay, and a crew that is too small does not start. Pure but for the book.
 */
export function settleSeats(wanted: readonly CalledSeat[], { book, stops, least }: SeatRules): SettledSeats {
  const lost: Lost[] = [];
  let kept = wanted.filter((seat) => {
    const words = book.job(seat.taskId)?.closed ?? stops.get(seat.taskId)?.[0]?.message;
    if (words === undefined) return true;
    lost.push({ kind: 'closed', seat, words });
    return false;
  });
  for (;;) {
    const before = kept;
    kept = before.filter((seat) => {
      const findings = book
        .findings(seat.volunteerId, seat, before)
        .filter(({ weight }) => weight === 'stop');
      if (findings.length > 0) lost.push({ kind: 'gate', seat, findings });
      return findings.length === 0;
    });
    const short = new Map(
      [...new Set(kept.map(({ taskId }) => taskId))].flatMap((taskId) => {
        const words = shortOf(
          kept.filter((seat) => seat.taskId === taskId),
          least.get(taskId),
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

/** What a crew lacks at the moment at which most of it is there, or null. */
function shortOf(crew: readonly CalledSeat[], least: LeastCrew | undefined): string | null {
  if (!least) return null;
  const together = crew
    .map(({ startsAt }) => crew.filter((seat) => seat.startsAt <= startsAt && startsAt < seat.endsAt))
    .sort((a, b) => b.length - a.length)[0];
  const hands = new Set(together?.map(({ volunteerId }) => volunteerId)).size;
  if (hands < least.hands) return `It takes ${least.hands} people at once, and ${hands} could be on it.`;
  const unfilled = least.seats.find(
    ({ skillId, level, count }) =>
      (together ?? []).filter((seat) => seat.skillId === skillId && seat.level >= level).length < count,
  );
  return unfilled ? 'A seat that needs its skill is not filled.' : null;
}
