import { framesUnder, planksOver } from '../model/ask.js';
import { type Hull } from '../model/hull.js';
import { frameName, type Side } from '../model/names.js';
import { need } from '../refusal.js';
import { OPENING_RULES, type OpeningSettings } from './settings.js';

/** What must stand before an element is opened. Frames are those at which the support stands. */
export interface Support {
  kind: 'shore' | 'brace' | 'ribband';
  side: Side;
  frames: number[];
}

export interface Prerequisite {
  kind: Support['kind'];
  /** Any one of these frames will do. */
  atOneOf: number[];
  side: Side;
  says: string;
}

/** Supports that an element asks for, given what is already open. */
export function prerequisitesOf(
  hull: Hull,
  element: string,
  open: string[],
  settings: OpeningSettings = {},
): Prerequisite[] {
  const frame = hull.frames.find((one) => one.key === element);
  if (frame) {
    const { number, side } = frame;
    return [...shoresAt(hull, number, number, side), braceAt(number, side)];
  }
  const plank = hull.planks.find((one) => one.key === element);
  need(plank !== undefined, 'element', `there is no element ${element}`, 'the key of a frame or plank');
  if (plank.skin === 'ceiling') return [];
  const shores = shoresAt(hull, plank.firstFrame, plank.lastFrame, plank.side);
  const bare = longestRunWith(hull, element, open);
  if (bare.strakes <= OPENING_RULES.strakeRun.value.without) return shores;
  const allowed = settings.strakeRun ? ` (written for ${settings.strakeRun.value.atMost} strakes)` : '';
  return [
    ...shores,
    {
      kind: 'ribband',
      atOneOf: [bare.frame],
      side: plank.side,
      says: `ribbands over frame ${bare.frame} ${plank.side} before the ${bare.strakes}th neighbouring strake is opened${allowed}`,
    },
    braceAt(bare.frame, plank.side),
  ];
}

/** Prerequisites that nothing standing meets. */
export const missingSupports = (asked: Prerequisite[], standing: Support[]): Prerequisite[] =>
  asked.filter(
    (one) =>
      !standing.some(
        (support) =>
          support.kind === one.kind &&
          support.side === one.side &&
          support.frames.some((frame) => one.atOneOf.includes(frame)),
      ),
  );

function shoresAt(hull: Hull, first: number, last: number, side: Side): Prerequisite[] {
  const within = OPENING_RULES.shoresWithin.value;
  const ends = [
    { end: 'forward', frames: [first - within, first] },
    { end: 'after', frames: [last, last + within] },
  ];
  return ends.map(({ end, frames }) => ({
    kind: 'shore',
    atOneOf: frames.filter((frame) => frame >= 1 && frame <= hull.outline.frames.count),
    side,
    says: `a shore within ${within} frame space of the ${end} end of the opening, ${side}, before bolts are cut`,
  }));
}

const braceAt = (frame: number, side: Side): Prerequisite => ({
  kind: 'brace',
  atOneOf: [frame - 1, frame, frame + 1],
  side,
  says: `a cross spall or brace at ${frameName(frame, side)} or next to it before bolts are cut`,
});

/** The most neighbouring strakes that would be open at one frame if this plank were off too. */
function longestRunWith(hull: Hull, plankKey: string, open: string[]): { strakes: number; frame: number } {
  const off = new Set([...open, plankKey]);
  const plank = hull.planks.find((one) => one.key === plankKey)!;
  let longest = { strakes: 0, frame: plank.firstFrame };
  for (const frame of framesUnder(hull, plank)) {
    const over = planksOver(hull, frame.number, frame.side);
    const at = over.findIndex((one) => one.key === plankKey);
    let [low, high] = [at, at];
    while (low > 0 && off.has(over[low - 1].key)) low -= 1;
    while (high + 1 < over.length && off.has(over[high + 1].key)) high += 1;
    if (high - low + 1 > longest.strakes) longest = { strakes: high - low + 1, frame: frame.number };
  }
  return longest;
}
