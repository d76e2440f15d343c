import type { Minute, Problem } from '@ribband/engine';
import type { ToldPlan } from '../../plans/told-plan.js';
import { freeHands } from '../gaps.js';
import { type TurnoutWork, workAt } from '../stretches.js';

/** One person's seat on one task at one turnout, as the plan asks for it. Indices are the problem's. */
export interface WeekSeat {
  /** Says which it is, and what it asks for when: `sameAs` finds it in another plan. */
  key: string;
  work: TurnoutWork;
  turnout: number;
  task: number;
  /** Index of the task's seat, or null for a further hand. */
  seat: number | null;
  start: Minute;
  end: Minute;
  /** Whom the plan has there; null for room that it leaves open. */
  planned: number | null;
  /** Whether the work could start without it. */
  isExtra: boolean;
}

/** What a seat asks for in the words of the records: a skill at a level, or neither. */
export interface SeatAsks {
  skillId: string | null;
  level: number;
}

/**
 * The seats of some turnouts: those that the plan has filled, and room for more up to the crew that works best. A say-so
 * that takes no time is no seat.
 */
export function seatsOfWeek(
  told: ToldPlan,
  turnouts: ReadonlySet<number>,
  droppedIds: ReadonlySet<string>,
): WeekSeat[] {
  const { problem } = told;
  return workAt(told, turnouts).flatMap((work): WeekSeat[] => {
    const task = problem.tasks[work.task];
    if (!task || droppedIds.has(task.id) || work.end <= work.start) return [];
    const turnoutId = problem.turnouts[work.turnout]?.id ?? '';
    const stretches = [...work.stretches].sort(
      (a, b) => Number(a.seat === null) - Number(b.seat === null) || a.start - b.start || a.person - b.person,
    );
    const open = Array.from({ length: freeHands(task, work) }, () => null);
    return [...stretches, ...open].map((stretch, n): WeekSeat => {
      const asked = { task: work.task, seat: stretch?.seat ?? null };
      const span = { start: stretch?.start ?? work.start, end: stretch?.end ?? work.end };
      const { skillId, level } = asksOf(problem, asked);
      const when = [told.instant(span.start), told.instant(span.end)];
      return {
        key: [turnoutId, task.id, n, skillId ?? anyHand, level, ...when].join(' '),
        work,
        turnout: work.turnout,
        ...asked,
        ...span,
        planned: stretch?.person ?? null,
        isExtra: stretch === null || (stretch.seat === null && n >= Math.max(1, task.crew.min)),
      };
    });
  });
}

/** What a key has where a seat asks for no skill. */
const anyHand = '-';

/** Whether two keys, of one plan or of two, are of the same work, ask for the same and are at the same time or nearly. */
export function sameAs(key: string, other: string): boolean {
  const [one, two] = [readKey(key), readKey(other)];
  return one.asks === two.asks && one.from < two.to && two.from < one.to;
}

function readKey(key: string): { asks: string; from: number; to: number } {
  const [turnoutId, taskId, , skillId, level, startsAt, endsAt] = key.split(' ');
  return { asks: [turnoutId, taskId, skillId, level].join(' '), from: Number(startsAt), to: Number(endsAt) };
}

/** The seat that keeps an adult beside someone under 18 asks for no skill of the yard's. */
export function realSkill(skillId: string | undefined): string | null {
  return skillId === undefined || skillId === 'adult' ? null : skillId;
}

export function asksOf(problem: Problem, { task, seat }: Pick<WeekSeat, 'task' | 'seat'>): SeatAsks {
  const asked = seat === null ? undefined : problem.tasks[task]?.seats[seat];
  const skillId = asked ? realSkill(problem.skills[asked.skill]?.id) : null;
  return { skillId, level: asked && skillId !== null ? asked.level : 0 };
}

/** Whether a task seats no skill: work that anybody may do, and nobody learns from. */
export function isDull(problem: Problem, task: number): boolean {
  const seats = problem.tasks[task]?.seats ?? [];
  return seats.every((seat) => realSkill(problem.skills[seat.skill]?.id) === null);
}

export const overlaps = (
  a: Pick<WeekSeat, 'turnout' | 'start' | 'end'>,
  b: Pick<WeekSeat, 'turnout' | 'start' | 'end'>,
): boolean => a.turnout === b.turnout && a.start < b.end && b.start < a.end;

/**
 * Who was said to have which seat, by its key, without whatever would have somebody in two places at once: of two the
 * first stays.
 */
export function oneAtATime(
  seats: readonly WeekSeat[],
  said: Iterable<readonly [string, number]>,
): Map<string, number> {
  const byKey = new Map(seats.map((seat) => [seat.key, seat]));
  const kept = new Map<string, number>();
  const busy = new Map<number, WeekSeat[]>();
  for (const [key, person] of said) {
    const seat = byKey.get(key);
    const theirs = busy.get(person) ?? [];
    if (!seat || kept.has(key) || theirs.some((other) => overlaps(other, seat))) continue;
    kept.set(key, person);
    busy.set(person, [...theirs, seat]);
  }
  return kept;
}
