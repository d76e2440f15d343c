import type { Fault } from '@ribband/crew';
import { isDay } from '@ribband/platform';
import type { Estimate, TaskDraft, TaskSurroundings } from './task-draft.js';
import type { EstimateWay, TaskKind } from './task-words.js';
import { seatFaults } from './seat-faults.js';

type Add = (code: Fault['code'], path: string, message: string, wouldBeRight: string) => void;

const estimatesOf: Record<TaskKind, readonly EstimateWay[]> = {
  work: ['count', 'work'],
  fixed: ['time'],
  elapsed: ['time'],
  hold: [],
  launch: [],
};

/** The three points of an estimate, and the path of the input field that holds them. */
export function pointsOf(estimate: Estimate) {
  switch (estimate.by) {
    case 'count':
      return { field: 'byCount.perPersonHour', points: estimate.perPersonHour };
    case 'work':
      return { field: 'personMinutes', points: estimate.personMinutes };
    case 'time':
      return { field: 'minutes', points: estimate.minutes };
  }
}

function checkEstimate({ kind, estimate }: TaskDraft, add: Add): void {
  const wanted = estimatesOf[kind];
  if (!estimate) {
    if (wanted.length > 0)
      add('BAD_INPUT', 'estimate', 'It has no estimate', `an estimate by ${wanted.join(' or ')}`);
    return;
  }
  if (!wanted.includes(estimate.by)) {
    const right = wanted.length === 0 ? 'no estimate' : `an estimate by ${wanted.join(' or ')}`;
    add('BAD_INPUT', 'estimate', `A task of the kind "${kind}" can’t be estimated by ${estimate.by}`, right);
    return;
  }
  if (estimate.by === 'count') {
    if (estimate.count < 0)
      add(
        'NEGATIVE_COUNT',
        'estimate.byCount.count',
        `${estimate.count} is below zero`,
        'how many there are, 1 or more',
      );
    else if (!Number.isInteger(estimate.count) || estimate.count < 1)
      add(
        'BAD_INPUT',
        'estimate.byCount.count',
        `${estimate.count} is no count`,
        'a whole number, 1 or more',
      );
    if (estimate.unit.trim() === '')
      add('BAD_INPUT', 'estimate.byCount.unit', 'It doesn’t say what is counted', 'a word such as nails');
  }
  const { field, points } = pointsOf(estimate);
  const path = `estimate.${field}`;
  const { low, likely, high } = points;
  if (![low, likely, high].every(Number.isFinite) || Math.min(low, likely, high) <= 0)
    add('BAD_INPUT', path, `${low}, ${likely}, ${high} are not all above zero`, 'three numbers above zero');
  else if (low > likely || likely > high)
    add(
      'ESTIMATE_OUT_OF_ORDER',
      path,
      `${low}, ${likely}, ${high} don’t rise`,
      'low at most likely, likely at most high',
    );
}

/** Kinds that nobody works on. */
const crewless: readonly TaskKind[] = ['elapsed'];

function checkCrew({ kind, crew }: TaskDraft, add: Add): void {
  const { min, efficient, max } = crew;
  if (![min, efficient, max].every((n) => Number.isInteger(n) && n >= 0))
    add('BAD_INPUT', 'crew', 'A crew is counted in whole people', 'whole numbers from 0 up');
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

const within = (value: number, least: number, most: number) => value >= least && value <= most;

function checkRest(draft: TaskDraft, add: Add): void {
  const title = draft.title.trim();
  if (title === '' || title.length > 300)
    add('BAD_INPUT', 'title', 'The title is empty or too long', '1 to 300 characters');
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
  if (draft.held?.trim() === '')
    add('BAD_INPUT', 'held', 'Held without a reason', 'the reason in words, or none when it is not held');
  draft.cautions.forEach((words, at) => {
    if (words.trim() === '' || words.length > 500)
      add('BAD_INPUT', `cautions[${at}]`, 'The caution is empty or too long', '1 to 500 characters');
  });
  for (const [list, most] of Object.entries(mostEntries) as [keyof typeof mostEntries, number][])
    if (draft[list].length > most)
      add('BAD_INPUT', list, `${draft[list].length} entries are too many`, `at most ${most}`);
}

export const mostEntries = { seats: 20, cards: 20, tools: 20, opens: 100, closes: 100, cautions: 20 };

/** Everything in a draft that can't stand, each with its path and what would be right. */
export function taskFaults(draft: TaskDraft, around: TaskSurroundings): Fault[] {
  const faults: Fault[] = [];
  const add: Add = (code, path, message, wouldBeRight) =>
    void faults.push({ code, path, message, wouldBeRight });
  checkRest(draft, add);
  checkEstimate(draft, add);
  checkCrew(draft, add);
  faults.push(...seatFaults(draft.seats, draft.crew.max, around));
  checkNames(draft, around, add);
  if (faults.length === 0) checkOneGo(draft, around.longestTurnoutMinutes, add);
  return faults;
}
