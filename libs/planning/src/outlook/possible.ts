import { candidatesFor, type Change, type Forecast, type Possible } from '@ribband/engine';
import { addDays, weekdayOf } from '@ribband/platform';
import type { ToldPlan } from '../plans/told-plan.js';
import { furtherTurnouts } from '../what-if/supposed.js';

/** Lessons from one level to the next, and how likely somebody new comes: common practice, no source. */
const lessons = 6;
const newcomer = 0.8;
/** How long further turnouts would be held, in days, and by how much stock may be hurried, in minutes. */
const furtherDays = 70;
const hurry = 14 * 1440;

/**
 * What the yard could do, as candidates for advice. Limits of structure and safety are no wishes: openings, crews,
 * cards, ages and links of the work are never among them.
 * @param positionOf where a task is on the hull, '' for none
 * @param wouldLearn whether somebody has said so of a skill: it decides who is asked first, and is in no words
 */
export function candidates(
  told: ToldPlan,
  forecast: Forecast,
  positionOf: (task: number) => string,
  wouldLearn: Possible['wouldLearn'],
): Change[] {
  const { problem } = told;
  const today = told.days.dayOf(told.instant(problem.now));
  const gateOn = told.days.dayOf(told.instant(problem.aim.gate));
  const coming = problem.turnouts.flatMap(({ start }, w) =>
    start >= problem.now ? [{ w, on: told.days.dayOf(told.instant(start)) }] : [],
  );
  const used = [...new Set(coming.map(({ on }) => weekdayOf(on)))].sort((a, b) => a - b);
  const free = [6, 7, 5, 3, 1, 2, 4].find((weekday) => !used.includes(weekday));
  const until = addDays(today, furtherDays) < gateOn ? addDays(today, furtherDays) : gateOn;
  const further = free === undefined ? [] : [furtherTurnouts(told, free, addDays(today, 1), until)];
  const possible: Possible = {
    days: used.map((weekday) => ({
      turnouts: coming.flatMap(({ w, on }) => (weekdayOf(on) === weekday ? [w] : [])),
    })),
    showUp: newcomer,
    lessons,
    wouldLearn,
    further: further.filter(({ spans }) => spans.length > 0),
    scope: scopeOf(told, forecast, positionOf),
    wishes: problem.people.flatMap(({ minutesAWeek, minutesATurnout }, person) => [
      ...(minutesAWeek === null ? [] : [{ kind: 'week cap' as const, person }]),
      ...(minutesATurnout === null ? [] : [{ kind: 'turnout cap' as const, person }]),
    ]),
    orders: problem.tasks.flatMap(({ notBefore, progress }, task) =>
      notBefore !== null && notBefore > problem.now && progress.kind === 'waiting'
        ? [{ task, by: hurry }]
        : [],
    ),
    tools: problem.tools.map((_, tool) => tool),
  };
  return candidatesFor(problem, possible, forecast);
}

/**
 * The pieces of her whose work stands on the deciding chain oftenest and has not begun: what buys most time if left
 * out. Work that opens and closes no piece (caulking, paint, the shed) is not the scope's to leave out.
 */
export function scopeOf(
  told: Pick<ToldPlan, 'problem'>,
  forecast: Pick<Forecast, 'tasks'>,
  positionOf: (task: number) => string,
): number[][] {
  const places = new Map<string, { tasks: number[]; weight: number; begun: boolean; isPiece: boolean }>();
  told.problem.tasks.forEach(({ effort, progress, opens, closes }, task) => {
    const position = positionOf(task);
    if (position === '' || effort.kind === 'hold') return;
    const place = places.get(position) ?? { tasks: [], weight: 0, begun: false, isPiece: false };
    place.tasks.push(task);
    place.weight += forecast.tasks[task]?.criticality ?? 0;
    place.begun ||= progress.kind !== 'waiting';
    place.isPiece ||= opens.length + closes.length > 0;
    places.set(position, place);
  });
  return [...places.values()]
    .filter(({ begun, weight, isPiece }) => isPiece && !begun && weight > 0)
    .sort((a, b) => b.weight - a.weight)
    .slice(0, mostPlaces)
    .map(({ tasks }) => tasks);
}

const mostPlaces = 3;
