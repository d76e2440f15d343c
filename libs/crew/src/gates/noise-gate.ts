import { caution, stop } from './found.js';
import type { GateRule } from './gate.types.js';
import { sameShift } from './hours.js';
import { dose, protection } from './noise-dose.js';

const percent = (value: number): string => `${String(Math.round(value))} %`;

/**
 * The planned dose of the shift. Half of it without protection asks for a hearing programme; the whole of it at the
 * ear, with what the yard hands out taken off, is a stop. 29 CFR 1910.95.
 */
export const noiseGate: GateRule = (given) => {
  const { job, occasion } = given;
  const isLoud = job.hazards.includes('noise') || job.noiseDba !== null;
  if (!isLoud) return [];
  const levels = sameShift(given).flatMap(({ startsAt, endsAt, noiseDba }) =>
    noiseDba === null ? [] : [{ hours: (endsAt - startsAt) / 3_600_000, dba: noiseDba }],
  );
  if (levels.length === 0)
    return [caution('noise', 'Nobody has written down how loud this work is: no dose is reckoned.')];
  const bare = dose(levels);
  const { protectorsRating } = occasion.yard;
  const taken = protectorsRating === null ? 0 : protection(protectorsRating);
  const atEar = dose(levels.map(({ hours, dba }) => ({ hours, dba: dba - taken })));
  if (atEar >= 100)
    return [
      stop(
        'noise',
        `The planned noise of the day comes to ${percent(atEar)} of what is permitted at the ear.`,
        taken === 0
          ? 'Write down the ear protection that the yard hands out, or take turns.'
          : 'Take turns: fewer hours at it.',
      ),
    ];
  if (bare < 50) return [];
  const worn = taken === 0 ? '' : `, ${percent(atEar)} with the yard’s ear protection worn all the time`;
  return [
    caution('noise', `The planned noise of the day comes to ${percent(bare)} of what is permitted${worn}.`),
  ];
};
