import { holeFate, HullRefusal, trayBalance, type TrayBalance, type TrayEntry } from '@ribband/hull';
import { effectiveTallies } from '../tallies/effective-tallies.js';
import type { TrayEntryEntity } from './tray-entry.entity.js';
import { countOf, type GradedHole, inOrder, outKinds, type TrayLine } from './tray-line.js';
import type { Tray } from './tray.entity.js';

type Said = Pick<
  TrayEntryEntity,
  'id' | 'correctsId' | 'frame' | 'lines' | 'holes' | 'counted' | 'yardAt' | 'note'
>;

/** How a tray stands, from its entries alone. */
export interface TrayStanding {
  balance: TrayBalance;
  frames: { frame: number; balance: TrayBalance }[];
  holes: GradedHole[];
  /** Found by the newest count less what should lie in it; null when nobody has counted since the last entry. */
  off: number | null;
}

/** What an entry asks too much of. */
export interface Fault {
  /** The line of the newest entry that does not fit; null where an older one no longer does. */
  line: TrayLine | null;
  message: string;
  wouldBeRight: string;
}

/** Entries that count, oldest first: of each one the newest correction. */
export const entriesThatCount = <T extends Said>(rows: readonly T[]): T[] =>
  effectiveTallies(rows).map(({ tally }) => tally);

/**
 * Lays the entries out one after the other. Nothing is ever below zero, for the tray as a whole and for each frame at
 * which entries were made.
 * @param newest id of the entry that is being made, for the fault
 * @returns the fault where more is said to have happened than can have
 */
export function standingOf(
  tray: Pick<Tray, 'inPlace' | 'frames'>,
  rows: readonly Said[],
  newest: string | null = null,
): TrayStanding | { fault: Fault } {
  const said = entriesThatCount(rows);
  const whole = balanceOf(tray.inPlace, said, newest);
  if ('fault' in whole) return whole;
  const frames: TrayStanding['frames'] = [];
  for (const { frame, inPlace } of tray.frames) {
    // What came out and what became of it there; nails lent, bought or driven are the whole tray's.
    const there = said.filter((entry) => entry.frame === frame).map(onlyOut);
    const balance = balanceOf(inPlace, there, newest);
    if ('fault' in balance) {
      const message = `At frame ${frame}: ${balance.fault.message}`;
      return { fault: { ...balance.fault, message } };
    }
    frames.push({ frame, balance });
  }
  const holes = said.flatMap((entry) => entry.holes);
  return { balance: whole, frames, holes, off: countedOff(tray.inPlace, said) };
}

function balanceOf(
  inPlace: number,
  said: readonly Said[],
  newest: string | null,
): TrayBalance | { fault: Fault } {
  const lines = said.flatMap((entry) => inOrder(entry.lines).map((line) => ({ line, id: entry.id })));
  try {
    return trayBalance(
      inPlace,
      lines.map(({ line }) => line as TrayEntry),
    );
  } catch (error) {
    if (!(error instanceof HullRefusal)) throw error;
    const at = Number(/^entries\[(\d+)\]/.exec(error.field)?.[1]);
    const found = lines[at];
    const isNewest = found !== undefined && found.id === newest;
    return {
      fault: {
        line: isNewest ? found.line : null,
        message: isNewest ? `${error.fault}.` : `Then an earlier entry no longer fits: ${error.fault}.`,
        wouldBeRight: error.wouldBeRight,
      },
    };
  }
}

const onlyOut = (entry: Said): Said => ({
  ...entry,
  lines: entry.lines.filter(({ kind }) => outKinds.includes(kind)),
});

/**
 * What the newest count found too many (above 0) or too few. What is lost settles a count that was short; so does a
 * move between trays that were mixed up. Moves after a count that was right are moves of nails in hand.
 */
function countedOff(inPlace: number, said: readonly Said[]): number | null {
  let off: number | null = null;
  const before: TrayLine[] = [];
  for (const entry of said) {
    if (off !== null) {
      off += countOf(entry.lines, ['lost']);
      if (off < 0) off += countOf(entry.lines, ['lent']);
      else if (off > 0) off -= countOf(entry.lines, ['received']);
    }
    before.push(...inOrder(entry.lines));
    if (entry.counted === null) continue;
    const { notGraded, inTray } = trayBalance(inPlace, before as TrayEntry[]);
    off = entry.counted - (notGraded + inTray);
  }
  return off;
}

/** New holes that the graded holes of a tray make in timber that is kept. @param isNew by the hole's key */
export function newHolesIn(
  holes: readonly GradedHole[],
  isNew: (key: string) => boolean,
): { graded: number; newHoles: number; inNewWood: number } {
  let newHoles = 0;
  let inNewWood = 0;
  for (const { key, nail, hole } of holes) {
    newHoles += holeFate(nail === 'sound', hole === 'sound', isNew(key)).newHolesInKept;
    if (isNew(key)) inNewWood += 1;
  }
  return { graded: holes.length, newHoles, inNewWood };
}
