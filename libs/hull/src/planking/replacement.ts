import { feet, type Millimetres, toFeet } from '../measure.js';
import { lengthOver } from '../model/bays.js';
import { type Hull, type Plank } from '../model/hull.js';
import { needWhole } from '../refusal.js';
import { REPLACEMENT_RULES } from './butt-rules.js';
import { type Butt, type ButtFault, buttsOf, pairFaults, readingFor } from './butts.js';

/** New plank over these frames in place of part or all of an old one. */
export interface Replacement {
  plank: string;
  firstFrame: number;
  lastFrame: number;
}

export interface ReplacementCheck {
  replacement: Replacement;
  /** In frame spaces, from butt to butt. */
  spaces: number;
  length: Millimetres;
  newButts: Butt[];
  faults: { rule: string; says: string }[];
  buttFaults: ButtFault[];
}

/** Length and butts of a replacement, and of what is left of the old plank. */
export function checkReplacement(
  hull: Hull,
  plank: Plank,
  firstFrame: number,
  lastFrame: number,
): ReplacementCheck {
  needWhole(firstFrame, 'firstFrame', plank.firstFrame, plank.lastFrame);
  needWhole(lastFrame, 'lastFrame', firstFrame, plank.lastFrame);
  const least = REPLACEMENT_RULES.length.value;
  const faults: { rule: string; says: string }[] = [];
  const spaces = lastFrame - firstFrame + 1;
  const length = lengthOver(hull.stations, { firstFrame, lastFrame });
  if (spaces < least)
    faults.push({
      rule: REPLACEMENT_RULES.length.key,
      says: `the new plank spans ${spaces} frame spaces: ${REPLACEMENT_RULES.length.says}`,
    });
  if (length < feet(REPLACEMENT_RULES.floorFeet.value))
    faults.push({
      rule: REPLACEMENT_RULES.floorFeet.key,
      says: `the new plank is ${toFeet(length).toFixed(1)} ft long: ${REPLACEMENT_RULES.floorFeet.says}`,
    });
  for (const left of [firstFrame - plank.firstFrame, plank.lastFrame - lastFrame])
    if (left > 0 && left < least)
      faults.push({
        rule: REPLACEMENT_RULES.length.key,
        says: `${left} frame spaces of the old plank would be left: ${REPLACEMENT_RULES.length.says}`,
      });
  const newButts = [firstFrame - 1, lastFrame]
    .filter((bay, index) => (index === 0 ? bay >= plank.firstFrame : bay < plank.lastFrame))
    .map((bay) => ({ side: plank.side, strake: plank.strake, bay }));
  const others = (['port', 'starboard'] as const).flatMap((side) => buttsOf(hull, side));
  const buttFaults = newButts.flatMap((butt) =>
    others.flatMap((other) => pairFaults([butt, other], hull.stations, readingFor(hull))),
  );
  return {
    replacement: { plank: plank.key, firstFrame, lastFrame },
    spaces,
    length,
    newButts,
    faults,
    buttFaults,
  };
}

/** Whether what fastens a replacement is as much and as stout as what held the old plank. Sizes in one unit. */
export function checkRefastening(
  was: { count: number; size: number },
  willBe: { count: number; size: number },
): { rule: string; says: string }[] {
  const { key, says } = REPLACEMENT_RULES.fastenings;
  return [
    ...(willBe.count < was.count
      ? [{ rule: key, says: `${willBe.count} in place of ${was.count}: ${says}` }]
      : []),
    ...(willBe.size < was.size ? [{ rule: key, says: `thinner than those that were in: ${says}` }] : []),
  ];
}

/** Every cut that takes out the frames named and breaks no rule, shortest new plank first. */
export function proposeReplacements(
  hull: Hull,
  plank: Plank,
  badFirst: number,
  badLast: number,
): ReplacementCheck[] {
  needWhole(badFirst, 'badFirst', plank.firstFrame, plank.lastFrame);
  needWhole(badLast, 'badLast', badFirst, plank.lastFrame);
  const found: ReplacementCheck[] = [];
  for (let first = plank.firstFrame; first <= badFirst; first += 1)
    for (let last = badLast; last <= plank.lastFrame; last += 1) {
      const check = checkReplacement(hull, plank, first, last);
      if (check.faults.length + check.buttFaults.length === 0) found.push(check);
    }
  return found.sort((a, b) => a.spaces - b.spaces || a.newButts.length - b.newButts.length);
}
