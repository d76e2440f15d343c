import type { Fault } from '@ribband/crew';
import { isDay, lastDay } from '@ribband/platform';
import { checkEstimate } from './estimate-faults.js';
import type { TaskDraft, TaskSurroundings } from './task-draft.js';
import type { TaskKind } from './task-words.js';
import { seatFaults } from './seat-faults.js';

type Add = (code: Fault['code'], path: string, message: string, wouldBeRight: string) => void;

const within = (value: number, least: number, most: number) => value >= least && value <= most;

const mostHands = 200;
/** Characters of anything that people write. */
const longestWords = 2000;

/** Kinds that nobody works on. */
const crewless: readonly TaskKind[] = ['elapsed'];

function checkCrew({ kind, crew }: TaskDraft, add: Add): void {
  const { min, efficient, max } = crew;
  if (![min, efficient, max].every((n) => Number.isInteger(n) && within(n, 0, mostHands)))
    add('BAD_INPUT', 'crew', 'This is no crew', `whole numbers from 0 to ${mostHands}`);
  else if (min > efficient || efficient > max)
    add(
      'CREW_OUT_OF_ORDER',
      'crew',
      `${min}, ${efficient}, ${max} don’t rise`,
      'the least at most the efficient, the efficient at most the most',
    );
  else if (crewless.includes(kind) && max > 0)
    add('CREW_OUT_OF_ORDER', 'crew', 'Time that passes by itself has no crew', '0, 0 and 0');
  else if (kind === 'work' && min < 1)
    add('CREW_OUT_OF_ORDER', 'crew.min', 'Nobody would do this work', '1 or more');
}

/** Shortest time in which a task can be done: likely work shared by as many as count. */
function leastMinutes({ estimate, crew, extraHandShare }: TaskDraft): number | null {
  if (!estimate) return null;
  if (estimate.by === 'time') return estimate.minutes.likely;
  const work =
    estimate.by === 'work'
      ? estimate.personMinutes.likely
      : (estimate.count / estimate.perPersonHour.likely) * 60;
  const hands = crew.efficient + (crew.max - crew.efficient) * extraHandShare;
  return hands > 0 ? work / hands : null;
}

function checkOneGo(draft: TaskDraft, longest: number | null, add: Add): void {
  const staysInATurnout = draft.kind === 'fixed' || (draft.kind === 'work' && draft.oneGo);
  if (!staysInATurnout || longest === null) return;
  const minutes = leastMinutes(draft);
  if (minutes === null || minutes <= longest) return;
  add(
    'ONE_GO_TOO_LONG',
    draft.kind === 'fixed' ? 'estimate.minutes' : 'oneGo',
    `In one go it takes ${Math.ceil(minutes)} minutes with the fullest crew, and the longest turnout has ${longest}`,
    `at most ${longest} minutes, a larger crew, or work that may stop and go on`,
  );
}

function checkNames(draft: TaskDraft, around: TaskSurroundings, add: Add): void {
  draft.cards.forEach((card, at) => {
    if (!around.cards.has(card))
      add('NOT_FOUND', `cards[${at}]`, 'The yard knows no such card', 'one of its kinds of cards');
  });
  draft.tools.forEach(({ tool, count }, at) => {
    const capacity = around.tools.get(tool);
    if (capacity === undefined)
      add('NOT_FOUND', `tools[${at}].tool`, 'The yard has no such tool', 'one of its tools');
    else if (!Number.isInteger(count) || count < 1 || count > capacity)
      add('BAD_INPUT', `tools[${at}].count`, `${count} can’t be had at once`, `1 to ${capacity}`);
    if (draft.tools.findIndex((other) => other.tool === tool) < at)
      add('ALREADY_EXISTS', `tools[${at}].tool`, 'This tool is named twice', 'each tool once');
  });
  for (const does of ['opens', 'closes'] as const)
    draft[does].forEach((element, at) => {
      if (!around.elements.has(element))
        add('NOT_FOUND', `${does}[${at}]`, 'The hull has no such element', 'one of its elements');
      if (draft[does].indexOf(element) < at)
        add('ALREADY_EXISTS', `${does}[${at}]`, 'This element is named twice', 'each element once');
    });
}

function checkRest(draft: TaskDraft, add: Add): void {
  const title = draft.title.trim();
  if (title === '' || title.length > longestWords)
    add('BAD_INPUT', 'title', 'The title is empty or too long', `1 to ${longestWords} characters`);
  if (draft.leastAge !== null && (!Number.isInteger(draft.leastAge) || !within(draft.leastAge, 0, 99)))
    add(
      'BAD_INPUT',
      'leastAge',
      `${draft.leastAge} is no age to ask for`,
      'whole years from 0 to 99, or none',
    );
  if (!Number.isInteger(draft.setUpMinutes) || !within(draft.setUpMinutes, 0, 600))
    add(
      'BAD_INPUT',
      'setUpMinutes',
      `${draft.setUpMinutes} minutes are no set-up`,
      'whole minutes, 0 to 600',
    );
  for (const share of ['extraHandShare', 'learnerShare'] as const)
    if (!within(draft[share], 0, 1))
      add('BAD_INPUT', share, `${draft[share]} is no share of a hand`, 'a number from 0 to 1');
  if (draft.notBefore !== null && !isDay(draft.notBefore))
    add('BAD_INPUT', 'notBefore', `"${draft.notBefore}" is not a day`, 'a day such as 2027-04-01');
  else if (draft.notBefore !== null && draft.notBefore > lastDay)
    add(
      'BAD_INPUT',
      'notBefore',
      `${draft.notBefore} is too far off`,
      `a day up to ${lastDay}, or a hold with its reason where nobody knows the day`,
    );
  if (draft.held !== null && (draft.held.trim() === '' || draft.held.length > longestWords))
    add(
      'BAD_INPUT',
      'held',
      'The reason is missing or too long',
      'the reason in words, or none when it is not held',
    );
  if ((draft.position ?? '').length > longestWords)
    add('BAD_INPUT', 'position', 'The position is too long', `at most ${longestWords} characters`);
  draft.cautions.forEach((words, at) => {
    if (words.trim() === '' || words.length > longestWords)
      add(
        'BAD_INPUT',
        `cautions[${at}]`,
        'The caution is empty or too long',
        `1 to ${longestWords} characters`,
      );
  });
  for (const [list, most] of Object.entries(mostEntries) as [keyof typeof mostEntries, number][])
    if (draft[list].length > most)
      add('BAD_INPUT', list, `${draft[list].length} entries are too many`, `at most ${most}`);
}

export const mostEntries = { seats: 20, cards: 20, tools: 20, opens: 200, closes: 200, cautions: 20 };

/** Everything in a draft that can't stand, each with its path and what would be right. */
export function taskFaults(draft: TaskDraft, around: TaskSurroundings): Fault[] {
  const faults: Fault[] = [];
  const add: Add = (code, path, message, wouldBeRight) =>
    void faults.push({ code, path, message, wouldBeRight });
  checkRest(draft, add);
  checkEstimate(draft, add);
  checkCrew(draft, add);
  faults.push(...seatFaults(draft, around));
  checkNames(draft, around, add);
  if (faults.length === 0) checkOneGo(draft, around.longestTurnoutMinutes, add);
  return faults;
}
