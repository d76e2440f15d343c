import { ageOn, adultAge } from './age.js';
import { type AgeTable, hazardAges, usualAges } from './age-table.js';
import { stop } from './found.js';
import type { Finding, GateRule, Hand, Job } from './gate.types.js';
import { commonPractice, ruleBook } from './rule-book.js';

/** The age that the work asks for, all reasons taken together; 0 where none is asked. */
export function leastAgeFor(
  job: Pick<Job, 'hazards' | 'leastAge' | 'dismantles'>,
  ages: AgeTable = usualAges,
): number {
  const byHazard = job.hazards.map((hazard) => ages.byHazard[hazard] ?? 0);
  return Math.max(ages.visitorsBelow, job.leastAge ?? 0, job.dismantles ? ages.teardownFrom : 0, ...byHazard);
}

const tooYoung = (rule: Finding['rule'], words: string, basis: string): Finding =>
  stop(rule, words, 'Other work at the same turnout may be open; ask the coordinator.', basis);

/** Below 14 nobody works. Common practice. */
export const visitorGate: GateRule = ({ hand, occasion }) =>
  hand.bornOn !== null && ageOn(hand.bornOn, occasion.on) < occasion.yard.ages.visitorsBelow
    ? [
        tooYoung(
          'visits-only',
          `Below ${occasion.yard.ages.visitorsBelow} one comes on a visit, with a parent.`,
          commonPractice,
        ),
      ]
    : [];

/** Work with an age of its own needs a day of birth on record. Common practice. */
export const ageKnownGate: GateRule = ({ hand, job, occasion: { yard } }) => {
  const asked = leastAgeFor(job, yard.ages);
  if (hand.bornOn !== null || asked <= yard.ages.visitorsBelow) return [];
  return [
    stop(
      'age-unknown',
      `This work is from ${asked} on, and no day of birth is on record.`,
      'The coordinator can write the day of birth down.',
    ),
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

/** Nobody under 18, or of an age that is not known, keeps a watch afloat, whatever the table of ages says. Common practice. */
export const watchAgeGate: GateRule = ({ hand, occasion }) =>
  occasion.isWatch === true && !isKnownAdult(hand, occasion.on)
    ? [
        tooYoung(
          'watch-for-adults',
          'A watch afloat is kept by those known to be 18 or older.',
          commonPractice,
        ),
      ]
    : [];

/** The age that goes with each hazard. */
export const hazardAgeGate: GateRule = ({ hand, job, occasion }) => {
  if (hand.bornOn === null) return [];
  const age = ageOn(hand.bornOn, occasion.on);
  return job.hazards.flatMap((hazard) => {
    const asked = occasion.yard.ages.byHazard[hazard];
    if (asked === undefined || age >= asked) return [];
    const basis = hazardAges[hazard]?.basis ?? commonPractice;
    return [tooYoung('age-for-hazard', `Work with the hazard "${hazard}" is from ${asked} on.`, basis)];
  });
};

/** Taking pieces off a vessel. */
export const teardownGate: GateRule = ({ hand, job, occasion }) =>
  job.dismantles && hand.bornOn !== null && ageOn(hand.bornOn, occasion.on) < occasion.yard.ages.teardownFrom
    ? [
        tooYoung(
          'teardown',
          `Taking pieces off the hull is from ${occasion.yard.ages.teardownFrom} on.`,
          ruleBook.teardown.basis,
        ),
      ]
    : [];

/** True only for somebody known to be 18 or older on the day. */
export function isKnownAdult(hand: Hand, on: string): boolean {
  return hand.bornOn !== null && ageOn(hand.bornOn, on) >= adultAge;
}

export function isMinor(hand: Pick<Hand, 'bornOn'>, on: string): boolean {
  return hand.bornOn !== null && ageOn(hand.bornOn, on) < adultAge;
}
