import { count, list } from '../words/amounts.js';
import { addDays, dayOf, sayDay } from '../words/dates.js';
import type { ElementState, ShellSide, Standing } from './hull.question.js';

export const stateWords: Record<ElementState, string> = {
  STANDING: 'standing',
  OPENING: 'opening',
  OPEN: 'open',
  CLOSING: 'closing',
  CLOSED: 'closed',
};

/** A week of the map by its Monday; null is now, as it really is. */
export type Week = string | null;

/** What a piece is at the end of a week: so it was, or will be by the plan; what nothing touches stands. */
export function stateIn(standing: Standing | null | undefined, week: Week, timeZone: string): ElementState {
  if (!standing) return 'STANDING';
  if (week === null) return standing.state;
  const sunday = addDays(week, 6);
  return standing.changes.findLast(({ at }) => dayOf(at, timeZone) <= sunday)?.state ?? 'STANDING';
}

const isOpen = (state: ElementState): boolean => state !== 'STANDING' && state !== 'CLOSED';

/** '9', '9 and 10', '9 to 14', '9 to 11 and 14'. */
export function runs(numbers: number[]): string {
  const sorted = [...new Set(numbers)].sort((a, b) => a - b);
  const groups: number[][] = [];
  for (const number of sorted) {
    const last = groups.at(-1);
    if (last && last.at(-1) === number - 1) last.push(number);
    else groups.push([number]);
  }
  return list(
    groups.flatMap((group) =>
      group.length > 2 ? [`${String(group[0])} to ${String(group.at(-1))}`] : group.map(String),
    ),
  );
}

/** How a side lies open in a week, in one sentence. */
export function sayOpen(side: ShellSide, week: Week, timeZone: string): string {
  const open = <T extends { standing?: Standing | null | undefined }>(cells: T[]): T[] =>
    cells.filter((cell) => isOpen(stateIn(cell.standing, week, timeZone)));
  const frames = open(side.frames).map((frame) => frame.number);
  const planks = open(side.planks);
  const ceiling = open(side.ceiling).length;
  const parts = [
    frames.length === 0
      ? ''
      : `${frames.length === 1 ? 'frame' : 'frames'} ${runs(frames)} ${frames.length === 1 ? 'is' : 'are'} out`,
    planks.length === 0
      ? ''
      : `${count(planks.length, 'plank is off', 'planks are off')} (${new Set(planks.map((plank) => plank.strake)).size === 1 ? 'strake' : 'strakes'} ${runs(planks.map((plank) => plank.strake))})`,
    ceiling === 0 ? '' : count(ceiling, 'plank of the ceiling is out', 'planks of the ceiling are out'),
  ].filter(Boolean);
  return parts.length === 0 ? 'nothing is open' : list(parts);
}

/** The weeks in which she lies open furthest, the first of them; null where she never does. */
export function widestWeek(sides: ShellSide[], weeks: string[], timeZone: string): string | null {
  let widest: { week: string; open: number } | null = null;
  for (const week of weeks) {
    const open = sides
      .flatMap((side) => [...side.planks, ...side.frames])
      .filter((cell) => isOpen(stateIn(cell.standing, week, timeZone))).length;
    if (open > (widest?.open ?? 0)) widest = { week, open };
  }
  return widest?.week ?? null;
}

/** "open since Saturday 1 May; closing from Sunday 4 July, closed from Sunday 11 July by the plan". */
export function sayCourse(standing: Standing | null | undefined, today: string, timeZone: string): string {
  if (!standing) return 'standing; no work is planned on it';
  const dated = standing.changes.map(({ at, state }) => ({ day: dayOf(at, timeZone), state }));
  const last = dated.findLast(({ day, state }) => day <= today && state === standing.state);
  const now = `${stateWords[standing.state]}${last ? ` since ${sayDay(last.day)}` : ''}`;
  const order: ElementState[] = ['STANDING', 'OPENING', 'OPEN', 'CLOSING', 'CLOSED'];
  const coming = dated.filter(
    ({ day, state }) => day >= today && order.indexOf(state) > order.indexOf(standing.state),
  );
  if (coming.length === 0) return now;
  return `${now}; by the plan ${list(coming.map(({ day, state }) => `${stateWords[state]} from ${sayDay(day)}`))}`;
}

/** The frames between which the work lies, with some to either side. */
export function workSpan(side: ShellSide): { from: number; to: number } {
  const touched = side.planks.filter((plank) => plank.standing);
  const frames = side.frames.filter((frame) => frame.standing);
  const left = Math.min(...touched.map((plank) => plank.left), ...frames.map((frame) => frame.x));
  const right = Math.max(...touched.map((plank) => plank.right), ...frames.map((frame) => frame.x));
  if (!Number.isFinite(left)) return { from: 0, to: side.length };
  const room = side.length * 0.03;
  return { from: Math.max(0, left - room), to: Math.min(side.length, right + room) };
}
