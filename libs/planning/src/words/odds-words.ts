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
export function whatDecides(problem: Problem, { chain }: Pick<Forecast, 'chain'>): string {
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

/** 'About 7 in 10 to make Sat 16 Oct; sawing decides.' @param day the gate's, in words */
export function oddsSentence(forecast: Forecast, problem: Problem, day: string): string {
  const { odds } = forecast.gate;
  const about = odds > 0.975 || odds < 0.025 ? oddsWords(odds) : `about ${oddsWords(odds)}`;
  return `${about.charAt(0).toUpperCase()}${about.slice(1)} to make ${day}; ${whatDecides(problem, forecast)}.`;
}
