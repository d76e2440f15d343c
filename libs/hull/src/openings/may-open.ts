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

/** Limits that would be broken if `element` were opened while `open` are. An empty list: no limit stands against it. */
export function waitsBefore(
  hull: Hull,
  element: string,
  open: string[],
  settings: OpeningSettings = {},
): Wait[] {
  if (open.includes(element)) return [];
  const now = new Set(open);
  return openingLimits(hull, [...open, element], settings)
    .filter((limit) => limit.elements.includes(element))
    .flatMap((limit) => {
      const because = limit.elements.filter((one) => now.has(one));
      return because.length + 1 > limit.atMost ? [waitFor(hull, element, because, limit)] : [];
    });
}

/** Limits broken by what is reported as open now. */
export const brokenBy = (hull: Hull, open: string[], settings: OpeningSettings = {}): OpeningLimit[] =>
  openingLimits(hull, open, settings).filter(
    (limit) => limit.elements.filter((one) => open.includes(one)).length > limit.atMost,
  );

function waitFor(hull: Hull, element: string, because: string[], limit: OpeningLimit): Wait {
  const frame = hull.frames.find((one) => one.key === element);
  const inWay = because.map((key) => shortName(hull, key));
  const list =
    inWay.length === 1 ? `${inWay[0]} is` : `${inWay.slice(0, -1).join(', ')} and ${inWay.at(-1)!} are`;
  return {
    element,
    says: `${shortName(hull, element)} must wait: ${list} ${frame ? 'out' : 'open'}`,
    rule: limit.rule,
    basis: limit.basis,
    because,
    limit,
  };
}

function shortName(hull: Hull, key: string): string {
  const frame = hull.frames.find((one) => one.key === key);
  return frame ? `frame ${frame.number}` : (hull.planks.find((one) => one.key === key)?.name ?? key);
}
