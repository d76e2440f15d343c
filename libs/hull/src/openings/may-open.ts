import { type Hull } from '../model/hull.js';
import { type OpeningLimit, openingLimits } from './limits.js';
import { type OPENING_RULES, type OpeningSettings } from './settings.js';

/** Why an element has to wait, in words that can be said on the staging, and the rule that says so. */
export interface Wait {
  element: string;
  says: string;
  rule: keyof typeof OPENING_RULES;
  basis: string;
  /** What is open and in the way. */
  because: string[];
  limit: OpeningLimit;
}

/** A limit as it counts: of these elements at most so many are open. */
export type OpenSet = Pick<OpeningLimit, 'elements' | 'atMost'>;

/** How elements are called on the staging: 'frame 12', and whether what is open of it is 'out' or 'open'. */
export interface ElementNames {
  name: (element: string) => string;
  isFrame: (element: string) => boolean;
}

/** Of some limits those that would be broken if `element` were opened while `open` are, each with its words. */
export function waitsUnder<L extends OpenSet>(
  limits: L[],
  element: string,
  open: ReadonlySet<string>,
  names: ElementNames,
): { limit: L; because: string[]; says: string }[] {
  if (open.has(element)) return [];
  return limits
    .filter((limit) => limit.elements.includes(element))
    .flatMap((limit) => {
      const because = limit.elements.filter((one) => open.has(one));
      return because.length + 1 > limit.atMost
        ? [{ limit, because, says: waitWords(element, because, names) }]
        : [];
    });
}

/** Of some limits those of which more is open than may be. */
export const brokenAmong = <L extends OpenSet>(limits: L[], open: ReadonlySet<string>): L[] =>
  limits.filter((limit) => limit.elements.filter((one) => open.has(one)).length > limit.atMost);

/** Limits that would be broken if `element` were opened while `open` are. An empty list: no limit stands against it. */
export function waitsBefore(
  hull: Hull,
  element: string,
  open: string[],
  settings: OpeningSettings = {},
): Wait[] {
  if (open.includes(element)) return [];
  const limits = openingLimits(hull, [...open, element], settings);
  return waitsUnder(limits, element, new Set(open), namesIn(hull)).map((wait) => ({
    element,
    ...wait,
    rule: wait.limit.rule,
    basis: wait.limit.basis,
  }));
}

/** Limits broken by what is reported as open now. */
export const brokenBy = (hull: Hull, open: string[], settings: OpeningSettings = {}): OpeningLimit[] =>
  brokenAmong(openingLimits(hull, open, settings), new Set(open));

function waitWords(element: string, because: string[], { name, isFrame }: ElementNames): string {
  const inWay = because.map(name);
  if (inWay.length === 0) return `${name(element)} must stay shut`;
  const list =
    inWay.length === 1 ? `${inWay[0]} is` : `${inWay.slice(0, -1).join(', ')} and ${inWay.at(-1)!} are`;
  return `${name(element)} must wait: ${list} ${isFrame(element) ? 'out' : 'open'}`;
}

function namesIn(hull: Hull): ElementNames {
  const frames = new Map(hull.frames.map((frame) => [frame.key, frame]));
  const planks = new Map(hull.planks.map((plank) => [plank.key, plank]));
  return {
    name: (key) => {
      const frame = frames.get(key);
      return frame ? `frame ${frame.number}` : (planks.get(key)?.name ?? key);
    },
    isFrame: (key) => frames.has(key),
  };
}
