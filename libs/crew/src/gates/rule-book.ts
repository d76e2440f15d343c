export const commonPractice = 'common practice, no source';

/** Who may set a stop aside, in writing, for one person on one work at one turnout. */
export type SetAsideBy = 'nobody' | 'director' | 'authority';

export const whoSetsAside: Record<SetAsideBy, string> = {
  nobody: 'nobody',
  director: 'the director, in writing',
  authority: 'the director or the lead shipwright, in writing',
};

interface Rule {
  /** What it asks, in plain words. */
  says: string;
  basis: string;
  /** Authority: director, lead shipwright, or whom they gave it to in writing. */
  setAsideBy: SetAsideBy;
}

const rule = (says: string, basis: string, setAsideBy: SetAsideBy): Rule => ({ says, basis, setAsideBy });

/**
 * Every rule of the gates: a closed list. Rules that guard children, air that is breathed and fire are never set aside;
 * ages that the law names only by the director, who answers for them; the rest by whoever has the authority. That nobody
 * wrote the fire watch down can be set aside once its time is over; the time itself never.
 */
export const ruleBook = {
  skill: rule('A place for a skill takes who is signed off for it.', commonPractice, 'authority'),
  card: rule('Cards that the work asks for are held and count on the day.', commonPractice, 'authority'),
  'card-lapses-soon': rule('Whose card lapses within 30 days is told.', commonPractice, 'authority'),
  'age-unknown': rule(
    'Work with an age of its own needs a day of birth on record.',
    commonPractice,
    'nobody',
  ),
  'least-age': rule('The age that the shipwright wrote on the work holds.', commonPractice, 'authority'),
  'age-for-hazard': rule(
    'Each hazard has its age.',
    '29 CFR 570.55, 570.58 and 570.65 for machines and hoists; else common practice, no source',
    'director',
  ),
  'watch-for-adults': rule('A watch afloat is kept by adults.', commonPractice, 'nobody'),
  teardown: rule(
    'Taking a vessel’s parts down is for adults until the organisation sets otherwise.',
    '29 CFR 570.66; whether repair counts is unsettled, so it is kept closed',
    'director',
  ),
  'visits-only': rule('The youngest come on a visit, with a parent.', commonPractice, 'nobody'),
  'kept-in-sight': rule('An adult keeps the young in sight all the time.', commonPractice, 'nobody'),
  'adult-alongside': rule('Under 18 one works beside an adult.', commonPractice, 'nobody'),
  'two-adults': rule('With anyone under 18 there are two adults.', commonPractice, 'nobody'),
  'learner-alone': rule(
    'Who learns works beside somebody who works alone in it.',
    commonPractice,
    'authority',
  ),
  'no-consent': rule('Under 18 a parent says yes first, by kind of work.', commonPractice, 'nobody'),
  'month-full': rule(
    'Nobody comes more often in a month than they have asked for.',
    commonPractice,
    'nobody',
  ),
  supervisor: rule(
    'Somebody by name supervises: one learner each at a machine; by hand four new people or eight experienced.',
    commonPractice,
    'authority',
  ),
  staging: rule(
    'Work above ground waits for staging with an inspection that counts that day.',
    '29 CFR 1915.71 asks for the staging; the tag is common practice, no source',
    'nobody',
  ),
  'lifting-gear': rule(
    'Heavy or high lifts use gear with an inspection that counts that day.',
    '29 CFR 1915 Subpart G, from memory; four carriers are common practice, no source',
    'nobody',
  ),
  carriers: rule('One carrier for each 35 lb.', commonPractice, 'authority'),
  'check-in': rule(
    'Who works has signed in that day.',
    '29 CFR 1915.84 asks that everybody is accounted for; signing in is common practice',
    'nobody',
  ),
  roll: rule('A turnout ends with everybody accounted for, by name.', '29 CFR 1915.84', 'nobody'),
  'two-persons': rule('Nobody works alone.', '29 CFR 1915.84; two persons are common practice', 'authority'),
  'minimum-crew': rule('Work starts with its least crew.', commonPractice, 'authority'),
  'fire-watch': rule(
    'Hot work has a fire watch of its own, with no other duty.',
    '29 CFR 1915.504(b), (c)(1)',
    'nobody',
  ),
  'hot-work-last': rule(
    'Hot work ends early enough for the watch to stay its time and look again later.',
    '29 CFR 1915.504(c)(2): at least 30 minutes; 60 after NFPA 51B, from memory',
    'nobody',
  ),
  'watch-record': rule(
    'A turnout with hot work ends when the watch has stood its time, by what is written down, and somebody has looked again or is named who will.',
    '29 CFR 1915.504(c)(2) for the time; the later look and the record are common practice, no source',
    'authority',
  ),
  'first-aider': rule('Somebody with a first-aid card is at every turnout.', '29 CFR 1915.87', 'director'),
  'hours-a-shift': rule('At most 8 hours a shift.', commonPractice, 'authority'),
  rest: rule('At least 10 hours’ rest between shifts.', commonPractice, 'authority'),
  'machine-hours': rule('Machines stop after 6 hours of anyone’s shift.', commonPractice, 'authority'),
  noise: rule(
    'Half of a day’s noise is a caution; the whole of it at the ear is a stop.',
    '29 CFR 1910.95, Table G-16 and Appendix A; the half from memory',
    'nobody',
  ),
  permit: rule(
    'Lead, asbestos, closed spaces and hot work wait for a permit that is open.',
    '29 CFR 1910.1025 by way of 1915.1025; 1915.12; 1915.1001 and 1915.14 from memory',
    'nobody',
  ),
  weather: rule(
    'Heat, cold, smoke, wind and thunder slow work or stop it.',
    'WAC 296-62-09547 for heat; the rest common practice, no source',
    'authority',
  ),
  opening: rule('As much of her is open as may be at once.', commonPractice, 'nobody'),
} as const satisfies Record<string, Rule>;

export type GateRuleName = keyof typeof ruleBook;

export const gateRuleNames = Object.keys(ruleBook) as GateRuleName[];
