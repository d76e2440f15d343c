import { inches, type Millimetres, toInches } from '../measure.js';
import { needPositive, needWhole } from '../refusal.js';
import { SISTER_RULES } from './butt-rules.js';

export interface SisterWish {
  /** Frames of one side to be sistered. */
  frames: number[];
  cause: 'damage' | 'decay';
  /** How far the sister reaches past the damage at each end. */
  pastDamage: [Millimetres, Millimetres];
  plankWidth: Millimetres;
}

export interface SisterFault {
  rule: string;
  says: string;
}

/** Whether sister frames are an answer here at all, and long enough. */
export function checkSisters({ frames, cause, pastDamage, plankWidth }: SisterWish): SisterFault[] {
  needPositive(plankWidth, 'plankWidth', 'millimetres');
  frames.forEach((frame, index) => {
    needWhole(frame, `frames[${index}]`, 1);
  });
  const faults: SisterFault[] = [];
  if (cause === 'decay') faults.push({ rule: SISTER_RULES.decay.key, says: SISTER_RULES.decay.says });
  const run = longestRun(frames);
  if (run > SISTER_RULES.neighbours.value)
    faults.push({
      rule: SISTER_RULES.neighbours.key,
      says: `${run} neighbouring frames are to be sistered: ${SISTER_RULES.neighbours.says}`,
    });
  const least = leastPastDamage(plankWidth);
  for (const past of pastDamage)
    if (past < least - 1e-6)
      faults.push({
        rule: SISTER_RULES.pastDamage.key,
        says: `${toInches(past).toFixed(1)} in past the damage where ${toInches(least).toFixed(1)} in is wanted: ${SISTER_RULES.pastDamage.says}`,
      });
  return faults;
}

export const leastPastDamage = (plankWidth: Millimetres): Millimetres =>
  Math.max(
    inches(SISTER_RULES.pastDamage.value.inches),
    SISTER_RULES.pastDamage.value.plankWidths * plankWidth,
  );

function longestRun(frames: number[]): number {
  const ordered = [...new Set(frames)].sort((a, b) => a - b);
  let [longest, run] = [0, 0];
  ordered.forEach((frame, index) => {
    run = index > 0 && frame === ordered[index - 1] + 1 ? run + 1 : 1;
    longest = Math.max(longest, run);
  });
  return longest;
}
