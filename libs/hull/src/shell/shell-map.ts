import { girthAt } from '../framing/girth.js';
import { type Millimetres } from '../measure.js';
import { bayMiddle } from '../model/bays.js';
import { type Hull } from '../model/hull.js';
import { type Side, type Skin } from '../model/names.js';

/** The one set of words for what an element is now. */
export const ELEMENT_STATES = ['standing', 'opening', 'open', 'closing', 'closed'] as const;
export type ElementState = (typeof ELEMENT_STATES)[number];

/** The shell unrolled flat, to scale: forward to the left, the rabbet at 0, heights along the girth upwards. */
export interface ShellMap {
  side: Side;
  length: Millimetres;
  height: Millimetres;
  planks: ShellCell[];
  frames: { key: string; name: string; number: number; x: Millimetres; head: Millimetres }[];
}

export interface ShellCell {
  key: string;
  name: string;
  strake: number;
  left: Millimetres;
  right: Millimetres;
  low: Millimetres;
  high: Millimetres;
}

export function shellMap(hull: Hull, side: Side, skin: Skin = 'planking'): ShellMap {
  const { stations, outline } = hull;
  const girth = (height: number): Millimetres => girthAt(hull, side, height);
  return {
    side,
    length: stations[stations.length - 1],
    height: girth(outline.strakes.count),
    planks: hull.planks
      .filter((plank) => plank.side === side && plank.skin === skin)
      .map(({ key, name, strake, firstFrame, lastFrame, from, to }) => ({
        key,
        name,
        strake,
        left: bayMiddle(stations, firstFrame - 1),
        right: bayMiddle(stations, lastFrame),
        low: girth(from),
        high: girth(to),
      })),
    frames: hull.frames
      .filter((frame) => frame.side === side)
      .map(({ key, name, number, head }) => ({ key, name, number, x: stations[number], head: girth(head) })),
  };
}

/** Times of the tasks that open and close an element, planned or real, in any one unit; null while not known. */
export interface OpeningTimes {
  opener: { start: number | null; end: number | null };
  closer: { start: number | null; end: number | null };
}

/** What an element is at a time. One that no task opens stands all along. */
export function elementStateAt(times: OpeningTimes | null, at: number): ElementState {
  if (times === null) return 'standing';
  const past = (time: number | null): boolean => time !== null && time <= at;
  if (past(times.closer.end)) return 'closed';
  if (past(times.closer.start)) return 'closing';
  if (past(times.opener.end)) return 'open';
  return past(times.opener.start) ? 'opening' : 'standing';
}
