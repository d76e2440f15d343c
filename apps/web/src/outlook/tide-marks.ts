import { addDays, daysBetween, monthOf } from '../words/dates.js';

/** The board runs upward in time: the water has risen to today, the marks stand where their days are. */
export interface Board {
  from: string;
  to: string;
}

/** From a week before the haul-out to two weeks past the last mark, so that no mark stands on the very end. */
export function boardFor(hauledOutOn: string, days: string[]): Board {
  const last = days.reduce((latest, day) => (day > latest ? day : latest), hauledOutOn);
  const first = days.reduce((earliest, day) => (day < earliest ? day : earliest), hauledOutOn);
  return { from: addDays(first, -7), to: addDays(last, 14) };
}

/** How far up the board a day stands, from 0 at its foot to 1 at its head. */
export function heightOf(board: Board, day: string): number {
  const span = daysBetween(board.from, board.to);
  return Math.min(1, Math.max(0, daysBetween(board.from, day) / span));
}

/** The first of each month on the board, with its name. */
export function monthNotches(board: Board): { on: string; name: string }[] {
  const notches = [];
  let [year, month] = board.from.split('-').map(Number) as [number, number];
  for (;;) {
    month += 1;
    if (month > 12) [year, month] = [year + 1, 1];
    const on = `${year}-${String(month).padStart(2, '0')}-01`;
    if (on > board.to) return notches;
    notches.push({ on, name: monthOf(on) });
  }
}

/** Every Monday-to-Monday step between the ends, for the small notches. */
export function weekNotches(board: Board): string[] {
  const notches = [];
  for (let day = addDays(board.from, 7); day < board.to; day = addDays(day, 7)) notches.push(day);
  return notches;
}

/**
 * Moves labels apart so that each has at least `room`, keeping their order and staying between 0 and `length`
 * where they fit. Takes and gives distances from the head, in any one unit, in rising order.
 */
export function spread(wanted: number[], room: number[], length: number): number[] {
  const placed = [...wanted];
  for (let index = 1; index < placed.length; index += 1) {
    placed[index] = Math.max(placed[index] ?? 0, (placed[index - 1] ?? 0) + (room[index - 1] ?? 0));
  }
  let limit = length;
  for (let index = placed.length - 1; index >= 0; index -= 1) {
    placed[index] = Math.min(placed[index] ?? 0, limit - (room[index] ?? 0));
    limit = placed[index] ?? 0;
  }
  return placed.map((place) => Math.max(0, place));
}
