import type { AdviceItem, Change, Problem } from '@ribband/engine';
import { inWords as levelInWords } from '@ribband/crew';
import { weekdayOf } from '@ribband/platform';
import { count, listOf, weekdayNames } from './days.js';
import { instantOf, inSentence, quoted, type Told } from './hold.js';
import { oddsWords } from './odds-words.js';

/** What would be done: 'One more person for sawing (works alone), on Saturdays'. */
export function changeWords(told: Told, change: Change, positionOf: (task: number) => string): string {
  const { problem } = told;
  switch (change.kind) {
    case 'recruit': {
      const skills = change.skills.map(
        ({ skill, level }) => `${skillName(problem, skill)} (${levelInWords(level)})`,
      );
      return `One more person for ${listOf(skills)}, ${onDays(told, change.turnouts)}`;
    }
    case 'train': {
      const name = (person: number) => problem.people[person]?.name ?? '';
      return `${name(change.trainer)} teaches ${name(change.person)} ${skillName(problem, change.skill)} at ${count(change.turnouts.length, 'turnout')}, the hours of both counted`;
    }
    case 'turnouts':
      return `${count(change.spans.length, 'further turnout')}, ${onWeekdays(
        told,
        change.spans.map(({ start }) => start),
      )}`;
    case 'tool':
      return `One more ${inSentence(problem.tools[change.tool]?.name ?? '')}`;
    case 'drop': {
      const positions = [...new Set(change.tasks.map(positionOf))].filter(Boolean);
      return `Leave out the work at ${listOf(positions.slice(0, 3))}, if the shipwright agrees`;
    }
    case 'relax':
      return relaxWords(told, change.wish);
    case 'order earlier':
      return `What ${quoted(problem, change.task)} waits for is there ${count(Math.round(change.by / 1440), 'day')} earlier`;
  }
}

function relaxWords({ problem }: Told, wish: Extract<Change, { kind: 'relax' }>['wish']): string {
  switch (wish.kind) {
    case 'week cap':
      return `${problem.people[wish.person]?.name ?? ''} without a limit of hours a week, if they agree`;
    case 'turnout cap':
      return `${problem.people[wish.person]?.name ?? ''} for whole turnouts, if they agree`;
    case 'not before':
      return `${quoted(problem, wish.task)} may begin sooner`;
    case 'link':
      return `${quoted(problem, problem.links[wish.link]?.after ?? -1)} need not wait for ${quoted(problem, problem.links[wish.link]?.before ?? -1)}`;
  }
}

/** What it gains: '9 in 10 instead of 6 in 10, ready 11 days earlier (give or take 1)'. */
export function gainWords({ gate, oddsGained, minutesGained }: AdviceItem, base: number): string {
  const days = Math.round(minutesGained.minutes / 1440);
  const error = Math.max(1, Math.round((1.96 * minutesGained.error) / 1440));
  const isSure = Math.abs(oddsGained.odds) > 1.96 * oddsGained.error;
  const [then, now] = [oddsWords(gate.odds), oddsWords(base)];
  const odds = !isSure
    ? 'no odds that can be told from luck'
    : then === now
      ? `still ${now}, a little better`
      : `${then} instead of ${now}`;
  if (days === 0) return `${odds}, ready the same day`;
  const size = count(Math.abs(days), 'day');
  return `${odds}, ready ${size} ${days > 0 ? 'earlier' : 'later'} (give or take ${String(error)})`;
}

const skillName = (problem: Problem, skill: number): string => inSentence(problem.skills[skill]?.name ?? '');

function onDays(told: Told, turnouts: readonly number[]): string {
  return onWeekdays(
    told,
    turnouts.map((w) => told.problem.turnouts[w]?.start ?? 0),
  );
}

function onWeekdays(told: Told, starts: readonly number[]): string {
  const days = starts.map((start) => told.days.dayOf(instantOf(told, start))).sort();
  const kinds = [...new Set(days.map((day) => weekdayOf(day)))].sort((a, b) => a - b);
  const from = days[0];
  return `${listOf(kinds.map((kind) => `on ${weekdayNames[kind - 1] ?? ''}`))}${from ? ` from ${told.days.day(from)}` : ''}`;
}
