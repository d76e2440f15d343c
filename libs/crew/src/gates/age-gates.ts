import { ageOn, adultAge } from './age.js';
import { commonPractice, type Finding, type GateRule, type Hand, type Job } from './gate.types.js';

/** Age below which somebody comes only as a visitor, with a parent. Common practice. */
export const visitorsBelow = 14;

interface HazardAge {
  age: number;
  basis: string;
}

/**
 * Least age by hazard. The federal orders bind employers; yards and insurers commonly ask the same of volunteers.
 * A hazard that is not named here sets no age of its own.
 */
export const hazardAges: Readonly<Partial<Record<string, HazardAge>>> = {
  machine: { age: 18, basis: '29 CFR 570.55 and 570.65' },
  'hot-work': { age: 18, basis: commonPractice },
  lead: { age: 18, basis: commonPractice },
  crush: { age: 18, basis: '29 CFR 570.58 where a hoist is used; else common practice, no source' },
  fall: { age: 18, basis: commonPractice },
  'enclosed-space': { age: 18, basis: commonPractice },
  electric: { age: 18, basis: commonPractice },
  drowning: { age: 18, basis: commonPractice },
  fatigue: { age: 18, basis: commonPractice },
  burn: { age: 18, basis: commonPractice },
  lifting: { age: 16, basis: commonPractice },
  strain: { age: 16, basis: commonPractice },
  chemical: { age: 16, basis: commonPractice },
  noise: { age: 16, basis: commonPractice },
  eye: { age: 16, basis: commonPractice },
};

/** Work that dismantles a part of a vessel is closed below 18 until counsel and insurer say otherwise. */
const teardownBasis = '29 CFR 570.66; whether repair counts is unsettled, so it is kept closed';

/** The age that the work asks for, all reasons taken together; 0 where none is asked. */
export function leastAgeFor(job: Pick<Job, 'hazards' | 'leastAge' | 'dismantles'>): number {
  const byHazard = job.hazards.map((hazard) => hazardAges[hazard]?.age ?? 0);
  return Math.max(visitorsBelow, job.leastAge ?? 0, job.dismantles ? adultAge : 0, ...byHazard);
}

const tooYoung = (rule: Finding['rule'], words: string, basis: string): Finding => ({
  rule,
  weight: 'stop',
  words,
  remedy: 'Other work at the same turnout may be open; ask the coordinator.',
  basis,
});

/** Below 14 nobody works. Common practice. */
export const visitorGate: GateRule = ({ hand, occasion }) =>
  hand.bornOn !== null && ageOn(hand.bornOn, occasion.on) < visitorsBelow
    ? [tooYoung('visits-only', `Below ${visitorsBelow} one comes on a visit, with a parent.`, commonPractice)]
    : [];

/** Work with an age of its own needs a day of birth on record. Common practice. */
export const ageKnownGate: GateRule = ({ hand, job }) => {
  const asked = leastAgeFor(job);
  if (hand.bornOn !== null || asked <= visitorsBelow) return [];
  return [
    {
      rule: 'age-unknown',
      weight: 'stop',
      words: `This work is from ${asked} on, and no day of birth is on record.`,
      remedy: 'The coordinator can write the day of birth down.',
      basis: commonPractice,
    },
  ];
};

/** The age that the shipwright wrote on the task. Common practice. */
export const taskAgeGate: GateRule = ({ hand, job, occasion }) =>
  job.leastAge !== null && hand.bornOn !== null && ageOn(hand.bornOn, occasion.on) < job.leastAge
    ? [
        tooYoung(
          'least-age',
          `This work is from ${job.leastAge} on, as the shipwright has written.`,
          commonPractice,
        ),
      ]
    : [];

/** The age that goes with each hazard. */
export const hazardAgeGate: GateRule = ({ hand, job, occasion }) => {
  if (hand.bornOn === null) return [];
  const age = ageOn(hand.bornOn, occasion.on);
  return job.hazards.flatMap((hazard) => {
    const asked = hazardAges[hazard];
    if (!asked || age >= asked.age) return [];
    return [
      tooYoung('age-for-hazard', `Work with the hazard "${hazard}" is from ${asked.age} on.`, asked.basis),
    ];
  });
};

/** Taking pieces off a vessel. */
export const teardownGate: GateRule = ({ hand, job, occasion }) =>
  job.dismantles && hand.bornOn !== null && ageOn(hand.bornOn, occasion.on) < adultAge
    ? [tooYoung('teardown', `Taking pieces off the hull is from ${adultAge} on.`, teardownBasis)]
    : [];

/** True only for somebody known to be 18 or older on the day. */
export function isKnownAdult(hand: Hand, on: string): boolean {
  return hand.bornOn !== null && ageOn(hand.bornOn, on) >= adultAge;
}

export function isMinor(hand: Hand, on: string): boolean {
  return hand.bornOn !== null && ageOn(hand.bornOn, on) < adultAge;
}
