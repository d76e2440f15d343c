import { type DayWords, listOf } from '../words/days.js';

/** An entry of the trail, with the name of what it is about. */
export interface Entered {
  operation: string;
  facts: object;
  /** A name, a title, or a day in words; '' where it is not known any more. */
  subject: string;
}

interface Facts {
  words?: unknown;
  notBefore?: { from: string | null; to: string | null };
  held?: { from: string | null; to: string | null } | boolean;
  away?: { fromOn: string; toOn: string }[];
  word?: string;
  before?: string | null;
  on?: string;
  leavesOn?: string | null;
  missing?: number;
}

type Words = (entered: { subject: string; facts: Facts }, days: DayWords) => string | null;

const quoted = (title: string) => (title === '' ? 'some work' : `“${title}”`);
const somebody = (name: string) => (name === '' ? 'somebody' : name);
const always =
  (words: string): Words =>
  () =>
    words;

/** What an operation of the trail did to the plan, as a clause after "since"; those that move no date are not listed. */
const clauses: Record<string, Words> = {
  survey: always('the survey changed'),
  applyWork: always('the work was made anew from the survey'),
  methods: always('a method changed'),
  chooseCare: always('another care of fastenings was chosen'),
  changeOpeningRule: always('an opening rule changed'),
  overrideOpeningLimit: always('a limit on openings was set aside'),
  restoreOpeningLimit: always('a limit on openings holds again'),
  overrideStop: always('a stop was set aside'),
  withdrawStopOverride: always('a stop holds again'),
  decidePlankRepair: always('a repair of a plank was decided'),
  importYard: always('a yard was read in'),
  setTurnoutRule: always('the turnouts of the week changed'),
  // Only in older entries.
  addClosedDay: always('a day was closed'),
  closeDays: always('the yard was closed for some days'),
  reopenDays: always('closed days were opened again'),
  liftShapeHold: always('the hold on openings was lifted'),
  playDemoOn: always('the demo yard’s days went by as planned'),
  addTask: ({ subject }) => `${quoted(subject)} was added`,
  dropTask: ({ subject }) => `${quoted(subject)} was left out`,
  sendTaskBack: ({ subject }) => `${quoted(subject)} was sent back`,
  setSkillLevel: ({ subject }) => `${somebody(subject)} was signed off anew`,
  addVolunteer: ({ subject }) => `${somebody(subject)} joined`,
  addTurnout: ({ subject }) => (subject === '' ? 'a turnout was added' : `a turnout was added on ${subject}`),
  cancelTurnout: ({ subject }) =>
    subject === '' ? 'a turnout was called off' : `the turnout of ${subject} was called off`,
  enterReadings: ({ facts }) => (facts.held === true ? 'her shape moved, and openings are held' : null),
  callTurnout: ({ subject, facts }) => {
    const missing = facts.missing ?? 0;
    if (missing === 0) return null;
    return `${missing === 1 ? 'one was' : `${String(missing)} were`} missing${subject === '' ? '' : ` on ${subject}`}`;
  },
  giveSlotWord: ({ facts: { word, before, on } }, days) => {
    if (word !== 'released' && before !== 'released') return null;
    const slot = on === undefined ? 'a lift slot' : `the lift slot of ${days.weekday(on)}`;
    return word === 'released' ? `${slot} was released` : `${slot} is ours again`;
  },
  editTask: ({ subject, facts: { notBefore, held } }, days) => {
    if (typeof held === 'object' && (held.to === null) !== (held.from === null))
      return held.to === null ? `the hold on ${quoted(subject)} was lifted` : `${quoted(subject)} was held`;
    if (!notBefore) return null;
    const { from, to } = notBefore;
    if (to === null) return `${quoted(subject)} no longer waits for a day`;
    return from === null || to > from
      ? `${quoted(subject)} was put off to ${days.weekday(to)}`
      : `${quoted(subject)} may begin sooner, on ${days.weekday(to)}`;
  },
  setAvailability: ({ subject, facts: { away = [], leavesOn } }, days) => {
    const who = somebody(subject);
    if (leavesOn) return `${who} leaves after ${days.weekday(leavesOn)}`;
    if (away.length === 0) return `${who} changed when they come`;
    const spans = away
      .slice(0, 2)
      .map(({ fromOn, toOn }) =>
        fromOn === toOn
          ? `on ${days.weekday(fromOn)}`
          : `from ${days.weekday(fromOn)} to ${days.weekday(toOn)}`,
      );
    return `${who} is away ${listOf(spans)}`;
  },
};

/** Everything that moves a date, in the order in which it was entered; places that were given back come together. */
export function eventWords(entries: readonly Entered[], days: DayWords): string[] {
  const left = entries.filter(({ operation }) => operation === 'leavePlace').length;
  const told = entries.flatMap(({ operation, subject, facts }) => {
    const known = facts as Facts;
    if (typeof known.words === 'string') return [known.words];
    return clauses[operation]?.({ subject, facts: known }, days) ?? [];
  });
  const places =
    left === 0 ? [] : [left === 1 ? 'a place was given back' : `${String(left)} places were given back`];
  return [...new Set([...places, ...told])];
}
