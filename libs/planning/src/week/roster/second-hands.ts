import { assignRoster, type Candidate, points } from '@ribband/engine';
import type { ToldPlan } from '../../plans/told-plan.js';
import { inSentence } from '../../words/hold.js';
import { mayHelp, stayAt } from '../presence.js';
import type { Lesson, RosterFacts } from './candidates.js';
import { asksOf, type WeekSeat } from './seats-of-week.js';

/** A learner beside a teacher, on a seat of the teacher's: over and above the crew that the work needs. */
export interface SecondHand {
  seat: WeekSeat;
  skill: number;
  learner: number;
  teacher: number;
  /** Whether the learner has said yes to it. */
  isTaken: boolean;
}

/** From this level on somebody teaches. */
const teaches = 3;
const learning = 1;

/**
 * Pairs those who come, have no place and are learning a skill with somebody who teaches it on a seat that asks for it:
 * one learner a teacher, no crew past its most, as many pairs as can be, the scarcest skills first; who wished to learn
 * it before who did not. Who has said yes to learning beside somebody stays, while that teacher is on that work.
 * @param held who has which seat
 * @param idle by turnout, who comes and has none
 */
export function secondHands(
  told: ToldPlan,
  held: readonly { seat: WeekSeat; person: number | null }[],
  idle: ReadonlyMap<number, readonly number[]>,
  facts: Pick<RosterFacts, 'stops' | 'wouldLearn' | 'lessons'>,
): SecondHand[] {
  const { problem } = told;
  const kept = lessonsKept(told, held, facts.lessons);
  const isKept = (person: number, turnout: number): boolean =>
    kept.some((one) => one.seat.turnout === turnout && [one.teacher, one.learner].includes(person));
  const teachers = held
    .flatMap(({ seat, person }) => {
      const asked = seat.seat === null ? undefined : problem.tasks[seat.task]?.seats[seat.seat];
      const level = person === null || !asked ? 0 : (problem.people[person]?.levels[asked.skill] ?? 0);
      return asked && person !== null && asked.level > learning && level >= teaches
        ? [{ seat, skill: asked.skill, teacher: person }]
        : [];
    })
    .filter(onePerTurnout)
    .filter(({ seat, teacher }) => !isKept(teacher, seat.turnout))
    .map((one) => ({ ...one, able: whoCan(told, one.skill) }))
    .sort((a, b) => a.able - b.able || a.seat.key.localeCompare(b.seat.key));
  const room = new Map<string, number>();
  const withRoom = teachers.filter(({ seat }) => {
    const key = `${seat.turnout} ${seat.task}`;
    const hands = new Set([
      ...held.flatMap((one) => (one.seat.work === seat.work ? (one.person ?? []) : [])),
      ...kept.flatMap((one) => (one.seat.work === seat.work ? one.learner : [])),
    ]).size;
    const left = room.get(key) ?? (problem.tasks[seat.task]?.crew.max ?? 0) - hands;
    room.set(key, left - 1);
    return left > 0;
  });
  const { seated } = assignRoster({
    people: problem.people.map(() => ({ quotas: [] })),
    berths: withRoom.map(({ seat, skill }, rank) => ({
      turnout: seat.turnout,
      rank,
      fixed: null,
      may: (idle.get(seat.turnout) ?? []).flatMap((person): Candidate[] => {
        const one = problem.people[person];
        const stay = one && stayAt(one, seat.turnout);
        const may =
          stay &&
          !isKept(person, seat.turnout) &&
          (one.levels[skill] ?? 0) === learning &&
          stay.from <= seat.start &&
          stay.to >= seat.end &&
          mayHelp(problem, one, seat.task, seat.turnout) &&
          facts.stops(person, { ...seat, seat: null }).length === 0;
        if (!may) return [];
        const cost = points['has not wished'];
        return [{ person, terms: facts.wouldLearn(person, skill) ? [] : [{ kind: 'has not wished', cost }] }];
      }),
    })),
  });
  return [
    ...kept,
    ...seated.flatMap(({ berth, person }): SecondHand[] => {
      const beside = withRoom[berth];
      return beside ? [secondOn(beside, person, false)] : [];
    }),
  ];
}

/** The lessons that somebody has said yes to and whose teacher is on that work at that time. */
function lessonsKept(
  told: ToldPlan,
  held: readonly { seat: WeekSeat; person: number | null }[],
  lessons: readonly Lesson[],
): SecondHand[] {
  return lessons.flatMap(({ learner, teacher, task, turnout, startsAt, endsAt }): SecondHand[] => {
    const theirs = held.filter(
      ({ seat, person }) =>
        person === teacher &&
        seat.task === task &&
        seat.turnout === turnout &&
        told.instant(seat.start) < endsAt &&
        startsAt < told.instant(seat.end),
    );
    for (const { seat } of theirs) {
      const asked = seat.seat === null ? undefined : told.problem.tasks[task]?.seats[seat.seat];
      if (asked) return [secondOn({ seat, skill: asked.skill, teacher }, learner, true)];
    }
    return [];
  });
}

function secondOn(
  { seat, skill, teacher }: { seat: WeekSeat; skill: number; teacher: number },
  learner: number,
  isTaken: boolean,
): SecondHand {
  return { seat, skill, learner, teacher, isTaken };
}

/** How a second hand's place stands in the records: on the teacher's skill, at the level of who is learning. */
export function asksOfSecond(
  { problem }: ToldPlan,
  { seat }: SecondHand,
): { skillId: string | null; level: number } {
  return { skillId: asksOf(problem, seat).skillId, level: learning };
}

/** Why they are there, as a sentence. What they wished for stays out of it: others read the sentence as well. */
export function saySecond({ problem }: ToldPlan, { skill, teacher }: SecondHand): string {
  const learns = inSentence(problem.skills[skill]?.name ?? '');
  return `Second hand: learns ${learns} beside ${problem.people[teacher]?.name ?? ''}, over and above the crew.`;
}

const whoCan = ({ problem }: ToldPlan, skill: number): number =>
  problem.people.filter((one) => (one.levels[skill] ?? 0) > learning).length;

/** A teacher teaches one at a time: of several seats at a turnout the first. */
function onePerTurnout(
  one: { seat: WeekSeat; teacher: number },
  at: number,
  all: readonly { seat: WeekSeat; teacher: number }[],
): boolean {
  return (
    all.findIndex((other) => other.teacher === one.teacher && other.seat.turnout === one.seat.turnout) === at
  );
}
