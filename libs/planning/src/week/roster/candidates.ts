import { type Candidate, type Person, type Standing, termsOf } from '@ribband/engine';
import type { ToldPlan } from '../../plans/told-plan.js';
import { mayFill, mayHelp, stayAt } from '../presence.js';
import { minutesOf, type SeatsInARow } from './berths.js';
import { isDull, type WeekSeat } from './seats-of-week.js';

/** What the records say that a roster goes by. People are the problem's indices. */
export interface RosterFacts {
  /** What keeps somebody from a seat by themselves, in words: a gate, a no said before, a yes to something else. */
  stops(person: number, seat: WeekSeat): string[];
  /** Of some people on seats, what keeps each from theirs with exactly these others there, in words. */
  stoppedInCompany(held: readonly { seat: WeekSeat; person: number }[]): string[][];
  /** Who has said yes to which seat. */
  taken: ReadonlyMap<string, number>;
  /** Who has said yes to learning beside whom, on which work. */
  lessons: readonly Lesson[];
  /** Who is asked to which seat and has not answered. */
  asked: ReadonlyMap<string, number>;
  /** Whether somebody was on a task before; null where nobody was. */
  knows(person: number, task: number): boolean | null;
  /** Whether somebody wishes to learn a skill. */
  wouldLearn(person: number, skill: number): boolean;
  /** Whether somebody who comes would stand by: they have not said no to it. */
  standsBy(person: number, turnout: number): boolean;
  /** At how many turnouts lately somebody had work that asks for no skill. */
  dullBefore(person: number): number;
}

/** A learner's place that is taken, over and above the crew. */
export interface Lesson {
  learner: number;
  teacher: number;
  task: number;
  turnout: number;
  /** Epoch milliseconds. */
  startsAt: number;
  endsAt: number;
}

/** Whether the plan's own rules let somebody hold a seat, if they come: expected for all of it, able, cleared. */
export function isAble(told: ToldPlan, person: number, seat: WeekSeat): boolean {
  const { problem } = told;
  const one = problem.people[person];
  const stay = one && stayAt(one, seat.turnout);
  if (!stay || stay.showUp <= 0 || stay.from > seat.start || stay.to < seat.end) return false;
  return isFit(told, one, seat);
}

/** As `isAble`, whenever they come. */
function isFit({ problem }: ToldPlan, person: Person, { task, seat, turnout }: WeekSeat): boolean {
  const asked = seat === null ? undefined : problem.tasks[task]?.seats[seat];
  return asked
    ? mayFill(problem, person, { task, seat: asked, turnout })
    : mayHelp(problem, person, task, turnout);
}

/** Who may take a berth, with what speaks against each. */
export function candidatesFor(
  told: ToldPlan,
  row: SeatsInARow,
  facts: RosterFacts,
  rare: readonly RareSkill[],
): Candidate[] {
  const { problem } = told;
  const minutes = minutesOf(row);
  return problem.people.flatMap((one, person): Candidate[] => {
    if (minutes > Math.min(one.minutesATurnout ?? Infinity, one.minutesAWeek ?? Infinity)) return [];
    const may = row.seats.every(
      (seat) => isAble(told, person, seat) && facts.stops(person, seat).length === 0,
    );
    return may ? [{ person, terms: termsOf(standingOf(told, row, person, { facts, rare })) }] : [];
  });
}

function standingOf(
  told: ToldPlan,
  row: SeatsInARow,
  person: number,
  { facts, rare }: { facts: RosterFacts; rare: readonly RareSkill[] },
): Standing {
  const { problem } = told;
  const known = row.seats.map((seat) => facts.knows(person, seat.task));
  const levels = problem.people[person]?.levels ?? [];
  const dull = row.seats.every((seat) => isDull(problem, seat.task));
  return {
    othersAsked: row.seats.some((seat) => (facts.asked.get(seat.key) ?? person) !== person),
    endsLesson: row.seats.some((seat) => endsLesson(told, seat, person, facts.lessons)),
    knowsIt: known.includes(false) ? false : known.includes(true) ? true : null,
    dullBefore: dull ? facts.dullBefore(person) : 0,
    rarestShared: rarestShared(told, row, person, rare),
    levelsOver: Math.max(
      0,
      ...row.seats.map(({ task, seat }) => {
        const asked = seat === null ? undefined : problem.tasks[task]?.seats[seat];
        return asked ? (levels[asked.skill] ?? 0) - asked.level : 0;
      }),
    ),
    minutesLost: Math.round(row.seats.reduce((sum, seat) => sum + minutesLost(told, seat, person), 0)),
    planned: row.planned === person,
  };
}

/** Whether somebody else on a seat leaves who has said yes to learning there without their teacher. */
function endsLesson(told: ToldPlan, seat: WeekSeat, person: number, lessons: readonly Lesson[]): boolean {
  if (seat.seat === null) return false;
  return lessons.some(
    ({ teacher, task, turnout, startsAt, endsAt }) =>
      teacher !== person &&
      task === seat.task &&
      turnout === seat.turnout &&
      told.instant(seat.start) < endsAt &&
      startsAt < told.instant(seat.end),
  );
}

/** More than so many who can do a thing, and it is not scarce. */
const mostScarce = 3;

/**
 * How many who are expected at the turnout could stand in on the rarest skill that somebody has, that other work asks
 * for there and that their berth does not; null where none is rare.
 */
function rarestShared(
  told: ToldPlan,
  row: SeatsInARow,
  person: number,
  rare: readonly RareSkill[],
): number | null {
  const asked = new Set(
    row.seats.flatMap(({ task, seat }) =>
      seat === null ? [] : (told.problem.tasks[task]?.seats[seat]?.skill ?? []),
    ),
  );
  const shared = rare.flatMap(({ skill, able }) =>
    !asked.has(skill) && able.has(person) ? [able.size] : [],
  );
  return shared.length > 0 ? Math.min(...shared) : null;
}

/** A skill that work at a turnout asks for, and few who are expected there have. */
export interface RareSkill {
  skill: number;
  able: ReadonlySet<number>;
}

export function rareSkillsAt({ problem, plan }: ToldPlan, turnout: number): RareSkill[] {
  const working = new Set(
    (plan?.segments ?? []).flatMap((one) => (one.turnout === turnout ? [one.task] : [])),
  );
  return [...working].flatMap((task) =>
    (problem.tasks[task]?.seats ?? []).flatMap(({ skill, level }): RareSkill[] => {
      const able = problem.people.flatMap((one, person) =>
        (one.levels[skill] ?? 0) >= level && stayAt(one, turnout) ? [person] : [],
      );
      return able.length <= mostScarce ? [{ skill, able: new Set(able) }] : [];
    }),
  );
}

/** Person-minutes that a learner adds less than a full hand where the plan has one. */
function minutesLost({ problem }: ToldPlan, seat: WeekSeat, person: number): number {
  const task = problem.tasks[seat.task];
  if (!task || seat.planned === null) return 0;
  const learns = (who: number) =>
    Math.max(0, ...task.seats.map(({ skill }) => problem.people[who]?.levels[skill] ?? 0)) === 1;
  return learns(person) && !learns(seat.planned) ? (1 - task.learnerShare) * (seat.end - seat.start) : 0;
}
