import type { Outcome, Problem, Wish } from '@ribband/engine';
import { inWords as levelInWords } from '@ribband/crew';
import { count, listOf, type DayWords } from './days.js';
import { inSentence, quoted } from './hold.js';

/** A wish that can't hold, as a sentence, with the task that it is about. */
export interface ToldWish {
  sentence: string;
  task: number | null;
}

/** Says what stands in the way where there is no plan: a sentence for each smallest set, and for what is in none. */
export function noPlanSentences(
  problem: Problem,
  { wishes, sets = [] }: Extract<Outcome, { kind: 'no plan' }>,
  epochAt: number,
  days: DayWords,
): ToldWish[] {
  const inSet = new Set(sets.flat());
  const say = (wish: Wish) => wishSentence(problem, wish, epochAt, days);
  const ofSets = sets.map((set): ToldWish => {
    const some = set.flatMap((k) => wishes[k] ?? []);
    const [first] = some;
    if (first === undefined || some.length === 1) return first ? say(first) : { sentence: '', task: null };
    const asked = some.map((wish) => asking(problem, wish, epochAt, days));
    return {
      sentence: `These were tried and can’t all hold, any one of them less would do: ${listOf(asked)}.`,
      task: some.map((wish) => say(wish).task).find((task) => task !== null) ?? null,
    };
  });
  return [...ofSets, ...wishes.filter((_, k) => !inSet.has(k)).map(say)];
}

/** What a wish asks for, as part of a sentence. */
function asking(problem: Problem, wish: Wish, epochAt: number, days: DayWords): string {
  switch (wish.kind) {
    case 'circle':
      return `that ${listOf(wish.tasks.map((task) => quoted(problem, task)))} wait for one another`;
    case 'seat':
      return `${seatWords(problem, wish)} on ${quoted(problem, wish.task)}`;
    case 'crew':
      return `${count(wish.need, 'hand')} at once on ${quoted(problem, wish.task)}`;
    case 'card':
      return `${cardWords(problem, wish)} on ${quoted(problem, wish.task)}`;
    case 'one go':
      return `${quoted(problem, wish.task)} in one go`;
    case 'not before':
      return `${quoted(problem, wish.task)} ${notBefore(problem, wish.task, epochAt, days)}`;
    case 'tool':
      return `“${problem.tools[wish.tool]?.name ?? ''}” for ${quoted(problem, wish.task)}`;
    case 'opening':
      return `the opening limit “${problem.openingLimits[wish.limit]?.name ?? ''}”`;
    case 'posting': {
      const posting = problem.posted[wish.posting];
      return posting
        ? `the place of ${problem.people[posting.person]?.name ?? ''} on ${quoted(problem, posting.task)}${dayOf(problem, posting.turnout, epochAt, days)}`
        : 'a place that was taken';
    }
    case 'cap':
      return `the most hours that ${problem.people[wish.person]?.name ?? ''} works`;
    case 'horizon':
      return `${quoted(problem, wish.task)} by the last turnout`;
  }
}

function seatWords(problem: Problem, wish: Extract<Wish, { kind: 'seat' }>): string {
  const seat = problem.tasks[wish.task]?.seats[wish.seat];
  const skill = problem.skills[seat?.skill ?? -1]?.name ?? '';
  return `${String(wish.need)} for ${inSentence(skill)}${seat ? ` (${levelInWords(seat.level)})` : ''}`;
}

function cardWords(problem: Problem, wish: Extract<Wish, { kind: 'card' }>): string {
  const card = `“${problem.clearances[wish.clearance]?.name ?? ''}”`;
  if (wish.seat === null) return `${card} for everyone`;
  const seat = problem.tasks[wish.task]?.seats[wish.seat];
  return `${card} for ${inSentence(problem.skills[seat?.skill ?? -1]?.name ?? '')}`;
}

function notBefore(problem: Problem, task: number, epochAt: number, days: DayWords): string {
  const minute = problem.tasks[task]?.notBefore ?? 0;
  return `not before ${days.at(epochAt + minute * 60_000)}`;
}

function dayOf(problem: Problem, turnout: number, epochAt: number, days: DayWords): string {
  const held = problem.turnouts[turnout];
  return held ? ` on ${days.atWeekday(epochAt + held.start * 60_000)}` : '';
}

/** Says what stands in the way where it is one thing alone. */
export function wishSentence(problem: Problem, wish: Wish, epochAt: number, days: DayWords): ToldWish {
  switch (wish.kind) {
    case 'circle': {
      const names = wish.tasks.map((task) => quoted(problem, task));
      return {
        sentence: `These wait for one another in a circle: ${listOf(names)}.`,
        task: wish.tasks[0] ?? null,
      };
    }
    case 'seat': {
      const seat = problem.tasks[wish.task]?.seats[wish.seat];
      const skill = problem.skills[seat?.skill ?? -1]?.name ?? '';
      const level = seat ? levelInWords(seat.level) : '';
      return {
        sentence: `${quoted(problem, wish.task)} needs ${String(wish.need)} at once for ${inSentence(skill)} (${level}); ${never(wish.have)}.`,
        task: wish.task,
      };
    }
    case 'crew':
      return {
        sentence: `${quoted(problem, wish.task)} needs ${count(wish.need, 'hand')} at once; ${wish.have === null ? never(null) : `there are never more than ${String(wish.have)} who may`}.`,
        task: wish.task,
      };
    case 'card':
      return {
        sentence: `${quoted(problem, wish.task)} asks for ${cardWords(problem, wish)}; no plan was found that keeps to it.`,
        task: wish.task,
      };
    case 'one go':
      return {
        sentence:
          wish.need === null || wish.longest === null
            ? `No plan was found in which ${quoted(problem, wish.task)} is done in one go.`
            : `${quoted(problem, wish.task)} needs ${count(wish.need, 'minute')} in one go; the longest turnout has ${String(wish.longest)}.`,
        task: wish.task,
      };
    case 'not before':
      return {
        sentence: `No plan was found in which ${quoted(problem, wish.task)} begins ${notBefore(problem, wish.task, epochAt, days)}.`,
        task: wish.task,
      };
    case 'cap':
      return {
        sentence: `No plan was found that keeps to the most hours that ${problem.people[wish.person]?.name ?? ''} works.`,
        task: null,
      };
    case 'tool':
      return {
        sentence: `${quoted(problem, wish.task)} needs more of “${problem.tools[wish.tool]?.name ?? ''}” than there are.`,
        task: wish.task,
      };
    case 'opening':
      return {
        sentence: `${quoted(problem, wish.task)} would open more of “${problem.openingLimits[wish.limit]?.name ?? ''}” than may be open at once.`,
        task: wish.task,
      };
    case 'posting': {
      const posting = problem.posted[wish.posting];
      if (!posting) return { sentence: 'No plan keeps a place that was taken.', task: null };
      const day = dayOf(problem, posting.turnout, epochAt, days);
      const name = problem.people[posting.person]?.name ?? '';
      return {
        sentence: `No plan was found that keeps the place of ${name} on ${quoted(problem, posting.task)}${day}.`,
        task: posting.task,
      };
    }
    case 'horizon':
      return { sentence: `${quoted(problem, wish.task)} is not done by the last turnout.`, task: wish.task };
  }
}

const never = (have: number | null): string =>
  have === null ? 'no plan was found that has them' : `there are never more than ${String(have)}`;
