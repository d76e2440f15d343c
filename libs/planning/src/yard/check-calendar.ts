import {
  addDays,
  checkRule as ruleFault,
  expandRule,
  instantToLocal,
  localToInstant,
} from '@ribband/platform';
import { lastTurnoutDay } from '@ribband/roster';
import { minutesOf } from './check-tasks.js';
import type { Add } from './refs.js';
import type { YardDocument } from './yard-document.js';

/** A rule of recurrence with the days between which it holds. */
export interface RuleSpan {
  rule: string;
  startsOn: string;
  untilOn: string | null;
}

/** No haul-out lasts longer than this, so that rules stay countable. */
const longestDays = 11 * 366;

/** The haul-out's slots in order, and turnouts that occur and don't overlap. */
export function checkCalendar(document: YardDocument, add: Add): void {
  checkSlots(document, add);
  document.turnoutRules.forEach((span, i) => {
    const path = `turnoutRules[${String(i)}]`;
    checkHours(span, path, add);
    checkRule(span, document.haulOut.timeZone, path, add);
  });
  const closed = new Set<string>();
  document.closedDays.forEach(({ on }, i) => {
    if (closed.has(on)) add(`closedDays[${String(i)}].on`, `${on} stands twice`, 'each day once');
    closed.add(on);
  });
  document.singleTurnouts.forEach((turnout, i) => {
    const path = `singleTurnouts[${String(i)}]`;
    if (turnout.kind !== 'watch') checkHours(turnout, path, add);
    else if (turnout.startTime === turnout.endTime)
      add(
        `${path}.endTime`,
        'is the minute at which it starts',
        'another time, the next morning if it is earlier',
      );
  });
  const turnouts = turnoutsOf(document);
  const calledOff = new Set(document.cancelledTurnouts.map(({ on, startTime }) => `${on} ${startTime}`));
  checkOverlaps(
    turnouts.filter(({ on, startTime, isUsual }) => isUsual && !calledOff.has(`${on} ${startTime}`)),
    add,
  );
  turnouts.forEach((turnout, i) => {
    const before = turnouts[i - 1];
    if (before?.on !== turnout.on || before.startTime !== turnout.startTime) return;
    if (before.isUsual && turnout.isUsual) return;
    add(turnout.path, `starts on ${turnout.on} with ${before.path}`, 'another start');
  });
  const starts = new Set(turnouts.map(({ on, startTime }) => `${on} ${startTime}`));
  for (const list of ['cancelledTurnouts', 'places'] as const) {
    document[list].forEach(({ on, startTime }, i) => {
      if (!starts.has(`${on} ${startTime}`))
        add(
          `${list}[${String(i)}].on`,
          `there is no turnout on ${on} at ${startTime}`,
          'the day and start of a turnout',
        );
    });
  }
}

/** A rule that can be read and occurs, between days in order. */
export function checkRule(span: RuleSpan, timeZone: string, path: string, add: Add): void {
  if (span.untilOn !== null && span.untilOn < span.startsOn) {
    add(`${path}.untilOn`, 'is before the first day', `${span.startsOn} or later, or null`);
    return;
  }
  const fault = ruleFault(span.rule, span.startsOn, timeZone, span.untilOn);
  if (fault !== null)
    add(`${path}.rule`, fault, 'a rule of RFC 5545 that occurs, such as FREQ=WEEKLY;BYDAY=SA');
}

function checkHours(span: { startTime: string; endTime: string }, path: string, add: Add): void {
  if (span.endTime <= span.startTime)
    add(`${path}.endTime`, 'is not after the start', `a time of the same day after ${span.startTime}`);
}

function checkSlots(document: YardDocument, add: Add): void {
  const { hauledOutOn, liftSlots } = document.haulOut;
  const gates = liftSlots.filter((slot) => slot.kind === 'gate').length;
  if (gates !== 1) add('haulOut.liftSlots', `${String(gates)} of the slots are the gate`, 'one gate');
  if (liftSlots.filter((slot) => slot.kind === 'fallback').length > 1)
    add('haulOut.liftSlots', 'has two fallbacks', 'one fallback or none');
  if (liftSlots.length > 0 && liftSlots.every(({ words }) => words.at(-1)?.word === 'released'))
    add('haulOut.liftSlots', 'are all released', 'one slot at least that is not');
  const order = { gate: 0, fallback: 1, later: 2 };
  liftSlots.forEach((slot, i) => {
    const path = `haulOut.liftSlots[${String(i)}]`;
    checkHours(slot, path, add);
    if (slot.on > addDays(hauledOutOn, longestDays - 364))
      add(`${path}.on`, 'is too far off', 'a day within ten years of the haul-out');
    if (slot.on <= hauledOutOn) add(`${path}.on`, 'is not after the haul-out', `a day after ${hauledOutOn}`);
    if (slot.confirmBy !== null && slot.confirmBy > slot.on)
      add(`${path}.confirmBy`, 'is after the slot', `${slot.on} or earlier, or null`);
    checkWords(slot.words, path, add);
    const before = liftSlots[i - 1];
    if (before && (before.on > slot.on || order[before.kind] > order[slot.kind]))
      add(
        path,
        'is out of order',
        'the gate, then the fallback, then later slots, each after the one before',
      );
  });
}

/** Words about a slot say something new each, in order of time. */
function checkWords(
  words: YardDocument['haulOut']['liftSlots'][number]['words'],
  path: string,
  add: Add,
): void {
  words.forEach(({ word, on }, i) => {
    const before = words[i - 1];
    if (word === (before?.word ?? 'taken back'))
      add(`${path}.words[${String(i)}].word`, `is ${word} already`, 'words that change something');
    if (before && before.on > on)
      add(`${path}.words[${String(i)}].on`, 'is before the word before it', `a day from ${before.on}`);
  });
}

/** The days and starts of all turnouts of a document, cancelled ones among them. */
export const startsOf = (document: YardDocument): ReadonlySet<string> =>
  new Set(turnoutsOf(document).map(({ on, startTime }) => `${on} ${startTime}`));

interface DatedTurnout {
  path: string;
  on: string;
  startTime: string;
  endTime: string;
  /** Neither a watch nor an all-hands day. */
  isUsual: boolean;
}

/**
 * The turnouts of a document in order of time, cancelled ones among them, to 52 weeks past its fallback gate. Faulty
 * rules and gates make none: they have been told of already.
 */
function turnoutsOf(document: YardDocument): DatedTurnout[] {
  const { timeZone, hauledOutOn, liftSlots } = document.haulOut;
  const closed = new Set(document.closedDays.map(({ on }) => on));
  const until = lastTurnoutDay(liftSlots) ?? hauledOutOn;
  const from = localToInstant(hauledOutOn, '00:00', timeZone);
  const to =
    until > addDays(hauledOutOn, longestDays) ? from : localToInstant(addDays(until, 1), '00:00', timeZone);
  const byRule = document.turnoutRules.flatMap((span, i) =>
    ruleFault(span.rule, span.startsOn, timeZone, span.untilOn) === null
      ? expandRule({ ...span, timeZone }, from, to)
          .map((start) => instantToLocal(start, timeZone).day)
          .filter((on) => !closed.has(on))
          .map((on) => ({
            path: `turnoutRules[${String(i)}]`,
            on,
            startTime: span.startTime,
            endTime: span.endTime,
            isUsual: true,
          }))
      : [],
  );
  const single = document.singleTurnouts.map(({ on, startTime, endTime, kind }, i) => {
    return { path: `singleTurnouts[${String(i)}]`, on, startTime, endTime, isUsual: kind === undefined };
  });
  return [...byRule, ...single].sort((a, b) =>
    `${a.on} ${a.startTime}` < `${b.on} ${b.startTime}` ? -1 : 1,
  );
}

function checkOverlaps(turnouts: DatedTurnout[], add: Add): void {
  const told = new Set<string>();
  turnouts.forEach((turnout, i) => {
    const before = turnouts[i - 1];
    if (before?.on !== turnout.on || minutesOf(before.endTime) <= minutesOf(turnout.startTime)) return;
    const key = `${before.path} ${turnout.path}`;
    if (told.has(key)) return;
    told.add(key);
    add(turnout.path, `overlaps ${before.path} on ${turnout.on}`, "turnouts that don't overlap");
  });
}
