import type { Forecast, Problem } from '@ribband/engine';
import { inSentence } from './hold.js';

/** A chance as one says it: in tens, and near the ends in twenties. No more is known of it. */
export function oddsWords(odds: number): string {
  if (odds > 0.975) return 'better than 19 in 20';
  if (odds >= 0.925) return '19 in 20';
  if (odds < 0.025) return 'less than 1 in 20';
  if (odds < 0.075) return '1 in 20';
  return `${String(Math.min(9, Math.max(1, Math.round(odds * 10))))} in 10`;
}

/** A skill that takes less of the deciding chain than this does not decide it. */
const decides = 0.15;

/** What the deciding chain spends most of its time on: 'sawing decides'. */
export function whatDecides(
  problem: Pick<Problem, 'skills' | 'tools'>,
  { chain }: Pick<Forecast, 'chain'>,
): string {
  const skill = chain.find(({ kind, share }) => kind === 'skill' && share >= decides);
  if (skill?.index !== undefined && skill.index !== null)
    return `${inSentence(problem.skills[skill.index]?.name ?? '')} decides`;
  const [first] = chain;
  switch (first?.kind) {
    case 'tool':
      return `the ${inSentence(problem.tools[first.index ?? -1]?.name ?? '')} decides`;
    case 'opening':
      return 'how far she may be open decides';
    case 'elapsed':
      return 'waiting time decides';
    case 'calendar':
      return 'the days without turnouts decide';
    case 'crew':
      return 'the number of hands decides';
    case 'skill':
    case undefined:
      return 'nothing by itself decides';
  }
}

/**
 * 'About 7 in 10 to make Sat 16 Oct; sawing decides.' Once the gate has gone by it speaks of the next slot, and once all
 * is done of neither.
 * @param day of a minute of the problem, in words
 */
export function oddsSentence(
  { slots, chain }: Pick<Forecast, 'slots' | 'chain'>,
  problem: Pick<Problem, 'aim' | 'now' | 'tasks' | 'skills' | 'tools'>,
  day: (minute: number) => string,
): string {
  const { aim, now, tasks } = problem;
  if (tasks.length > 0 && tasks.every(({ progress }) => progress.kind === 'done'))
    return 'She is ready: nothing is left to be done before the lift.';
  const gone = aim.gate < now ? `The gate of ${day(aim.gate)} has gone by; ` : '';
  const next = slots.filter(({ at }) => at >= now && at >= aim.gate).sort((a, b) => a.at - b.at)[0];
  if (!next) return `${gone}no later slot is booked, and ${whatDecides(problem, { chain })}.`;
  const about =
    next.odds > 0.975 || next.odds < 0.025 ? oddsWords(next.odds) : `about ${oddsWords(next.odds)}`;
  const says = `${gone}${about} to make ${day(next.at)}; ${whatDecides(problem, { chain })}.`;
  return `${says.charAt(0).toUpperCase()}${says.slice(1)}`;
}
