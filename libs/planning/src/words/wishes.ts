import type { Problem, Wish } from '@ribband/engine';
import { inWords as levelInWords } from '@ribband/crew';
import { count, listOf, type DayWords } from './days.js';
import { inSentence, quoted } from './hold.js';

/** A wish that can't hold, as a sentence, with the task that it is about. */
export interface ToldWish {
  sentence: string;
  task: number | null;
}

/** Says what stands in the way where there is no plan. */
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
        sentence: `${quoted(problem, wish.task)} needs ${String(wish.need)} at once for ${inSentence(skill)} (${level}); there are never more than ${String(wish.have)}.`,
        task: wish.task,
      };
    }
    case 'crew':
      return {
        sentence: `${quoted(problem, wish.task)} needs ${count(wish.need, 'hand')} at once; there are never more than ${String(wish.have)} who may.`,
        task: wish.task,
      };
    case 'one go':
      return {
        sentence: `${quoted(problem, wish.task)} needs ${count(wish.need, 'minute')} in one go; the longest turnout has ${String(wish.longest)}.`,
        task: wish.task,
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
      const turnout = problem.turnouts[posting.turnout];
      const day = turnout ? ` on ${days.atWeekday(epochAt + turnout.start * 60_000)}` : '';
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
