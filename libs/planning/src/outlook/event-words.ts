import { type DayWords, listOf } from '../words/days.js';

/** Which way a date may move by what was recorded: a loss makes nothing sooner. */
type Way = 'sooner' | 'later' | 'either';

/** What was recorded, as a clause after "since". */
export interface Reason {
  words: string;
  way: Way;
}

/** Kept reasons were mere words once. */
export const asReason = (kept: string | Reason): Reason =>
  typeof kept === 'string' ? { words: kept, way: 'either' } : kept;

/** The words of those that may have moved a date this way. */
export const fitting = (reasons: readonly (string | Reason)[], moved: 'sooner' | 'later'): string[] =>
  reasons.map(asReason).flatMap(({ words, way }) => (way === 'either' || way === moved ? [words] : []));

/** An entry of the trail, with the name of what it is about. */
export interface Entered {
  operation: string;
  facts: object;
  /** A name, a title, or a day in words; '' where it is not known any more. */
  subject: string;
}

interface Facts {
  words?: unknown;
  /** Beside words of its own. */
  way?: Way;
  /** Since when its author entered what it is made of: the words speak for all of that. */
  since?: number;
  notBefore?: { from: string | null; to: string | null };
  held?: { from: string | null; to: string | null } | boolean;
  away?: { fromOn: string; toOn: string }[];
  word?: string;
  before?: string | null;
  on?: string;
  leavesOn?: string | null;
  missing?: number;
}

type Words = (entered: { subject: string; facts: Facts }, days: DayWords) => Reason | null;

const quoted = (title: string) => (title === '' ? 'some work' : `“${title}”`);
const somebody = (name: string) => (name === '' ? 'somebody' : name);
const sooner = (words: string): Reason => ({ words, way: 'sooner' });
const later = (words: string): Reason => ({ words, way: 'later' });
const either = (words: string): Reason => ({ words, way: 'either' });
const always =
  (reason: Reason): Words =>
  () =>
    reason;

/** What an operation of the trail did to the plan, as a clause after "since"; those that move no date are not listed. */
const clauses: Record<string, Words> = {
  survey: always(either('the survey changed')),
  applyWork: always(either('the work was made anew from the survey')),
  methods: always(either('a method changed')),
  chooseCare: always(either('another care of fastenings was chosen')),
  changeOpeningRule: always(either('an opening rule changed')),
  overrideOpeningLimit: always(sooner('a limit on openings was set aside')),
  restoreOpeningLimit: always(later('a limit on openings holds again')),
  overrideStop: always(sooner('a stop was set aside')),
  withdrawStopOverride: always(later('a stop holds again')),
  decidePlankRepair: always(either('a repair of a plank was decided')),
  importYard: always(either('a yard was read in')),
  setTurnoutRule: always(either('the turnouts of the week changed')),
  // Only in older entries.
  addClosedDay: always(later('a day was closed')),
  closeDays: always(later('the yard was closed for some days')),
  reopenDays: always(sooner('closed days were opened again')),
  liftShapeHold: always(sooner('the hold on openings was lifted')),
  playDemoOn: always(either('the demo yard’s days went by as planned')),
  addTask: ({ subject }) => later(`${quoted(subject)} was added`),
  dropTask: ({ subject }) => sooner(`${quoted(subject)} was left out`),
  sendTaskBack: ({ subject }) => later(`${quoted(subject)} was sent back`),
  setSkillLevel: ({ subject }) => either(`${somebody(subject)} was signed off anew`),
  addVolunteer: ({ subject }) => sooner(`${somebody(subject)} joined`),
  addTurnout: ({ subject }) =>
    sooner(subject === '' ? 'a turnout was added' : `a turnout was added on ${subject}`),
  cancelTurnout: ({ subject }) =>
    later(subject === '' ? 'a turnout was called off' : `the turnout of ${subject} was called off`),
  enterReadings: ({ facts }) =>
    facts.held === true ? later('her shape moved, and openings are held') : null,
  callTurnout: ({ subject, facts }) => {
    const missing = facts.missing ?? 0;
    if (missing === 0) return null;
    const who = missing === 1 ? 'one was' : `${String(missing)} were`;
    return later(`${who} missing${subject === '' ? '' : ` on ${subject}`}`);
  },
  giveSlotWord: ({ facts: { word, before, on } }, days) => {
    if (word !== 'released' && before !== 'released') return null;
    const slot = on === undefined ? 'a lift slot' : `the lift slot of ${days.weekday(on)}`;
    return either(word === 'released' ? `${slot} was released` : `${slot} is ours again`);
  },
  editTask: ({ subject, facts: { notBefore, held } }, days) => {
    if (typeof held === 'object' && (held.to === null) !== (held.from === null))
      return held.to === null
        ? sooner(`the hold on ${quoted(subject)} was lifted`)
        : later(`${quoted(subject)} was held`);
    if (!notBefore) return null;
    const { from, to } = notBefore;
    if (to === null) return sooner(`${quoted(subject)} no longer waits for a day`);
    return from === null || to > from
      ? later(`${quoted(subject)} was put off to ${days.weekday(to)}`)
      : sooner(`${quoted(subject)} may begin sooner, on ${days.weekday(to)}`);
  },
  setAvailability: ({ subject, facts: { away = [], leavesOn } }, days) => {
    const who = somebody(subject);
    if (leavesOn) return later(`${who} leaves after ${days.weekday(leavesOn)}`);
    if (away.length === 0) return either(`${who} changed when they come`);
    const spans = away
      .slice(0, 2)
      .map(({ fromOn, toOn }) =>
        fromOn === toOn
          ? `on ${days.weekday(fromOn)}`
          : `from ${days.weekday(fromOn)} to ${days.weekday(toOn)}`,
      );
    return later(`${who} is away ${listOf(spans)}`);
  },
};

/** Everything that moves a date, in the order in which it was entered; places that were given back come together. */
export function eventWords(entries: readonly Entered[], days: DayWords): Reason[] {
  const left = entries.filter(({ operation }) => operation === 'leavePlace').length;
  const told = entries.flatMap(({ operation, subject, facts }) => {
    const known = facts as Facts;
    if (typeof known.words === 'string') return [{ words: known.words, way: known.way ?? 'either' }];
    return clauses[operation]?.({ subject, facts: known }, days) ?? [];
  });
  const places =
    left === 0
      ? []
      : [later(left === 1 ? 'a place was given back' : `${String(left)} places were given back`)];
  return [...new Map([...places, ...told].map((one) => [one.words, one] as const)).values()];
}

/** Without what a note with words of its own is made of: one event is told once. */
export function toldOnce<T extends { at: number; accountId: string | null; facts: object }>(
  entries: readonly T[],
): T[] {
  const whole = entries.flatMap(({ at, accountId, facts }) => {
    const { words, since } = facts as Facts;
    return typeof words === 'string' && since !== undefined ? [{ at, accountId, since }] : [];
  });
  return entries.filter(
    ({ at, accountId, facts }) =>
      typeof (facts as Facts).words === 'string' ||
      !whole.some((one) => one.accountId === accountId && at >= one.since && at <= one.at),
  );
}
