import type { Forecast, Problem } from '@ribband/engine';
import { count, daysFromTo, type DayWords, listOf } from '../words/days.js';
import { inSentence } from '../words/hold.js';

/** 'about 7 in 10'; at the ends it says how sure it may be without claiming to be certain. */
export function oddsWords(odds: number): string {
  if (odds < 0.01) return 'hardly any chance';
  if (odds < 0.05) return 'less than 1 in 20';
  if (odds > 0.99) return 'as good as certain, as far as the record goes';
  if (odds > 0.95) return 'better than 19 in 20';
  const tenths = Math.min(9, Math.max(1, Math.round(odds * 10)));
  return `about ${String(tenths)} in 10`;
}

const capital = (words: string) => words.charAt(0).toUpperCase() + words.slice(1);

interface Around {
  problem: Problem;
  days: DayWords;
  /** Epoch milliseconds of the gate. */
  gateAt: number;
}

/** 'About 7 in 10 to make the gate on Sat 16 Oct; sawing decides.' */
export function oddsSentence({ gate, chain }: Forecast, around: Around): string {
  const made = `${capital(oddsWords(gate.odds))} to make the gate on ${around.days.atWeekday(around.gateAt)}`;
  const decides = deciders(chain, around.problem);
  return decides === null ? `${made}.` : `${made}; ${decides}.`;
}

/** Shares of the deciding chain below this are not worth naming. */
const LEAST_SHARE = 0.15;

/** 'sawing decides', 'sawing and caulking decide': what the chain that decides spends most of its time on. */
function deciders(chain: Forecast['chain'], problem: Problem): string | null {
  const named = chain
    .filter(({ kind, share }) => kind !== 'calendar' && share >= LEAST_SHARE)
    .slice(0, 2)
    .map((one) => nameOf(one, problem));
  if (named.length === 0) return null;
  return `${listOf(named)} ${named.length === 1 ? 'decides' : 'decide'}`;
}

function nameOf({ kind, index }: Forecast['chain'][number], problem: Problem): string {
  if (kind === 'skill' && index !== null) return inSentence(problem.skills[index]?.name ?? '');
  if (kind === 'tool' && index !== null) return inSentence(problem.tools[index]?.name ?? '');
  return {
    skill: 'skill',
    tool: 'tools',
    crew: 'hands',
    opening: 'what may be open at once',
    elapsed: 'time that must pass',
    calendar: 'the calendar',
  }[kind];
}

/** What the deciding chain spends its time on, greatest share first: 'sawing: about 4 days in 10'. */
export function chainWords({ chain }: Forecast, problem: Problem): string[] {
  return chain
    .filter(({ share }) => share >= 0.05)
    .slice(0, 6)
    .map((one) => `${nameOf(one, problem)}: ${oddsWords(one.share)} of the hours that decide`);
}

/** 'Slipping 2 days a week since Sat 3 Apr, when ...'. */
export function driftWords(daysAWeek: number, since: string, why: readonly string[]): string {
  const days = Math.abs(Math.round(daysAWeek * 10) / 10);
  if (days < 0.3) return `Holding steady since ${since}.`;
  const way = daysAWeek > 0 ? 'Slipping' : 'Gaining';
  const then = why.length > 0 ? `; then: ${listOf(why.slice(0, 3))}` : '';
  return `${way} ${count(days, 'day')} a week since ${since}${then}.`;
}

/** 'Ready by Sat 9 Oct in 8 of 10 futures, 7 days before the gate'. */
export function readyByWords(
  inTen: string,
  at: number | null,
  { days, gateAt }: Pick<Around, 'days' | 'gateAt'>,
): string {
  if (at === null) return `${inTen}: not within the turnouts that are laid out`;
  const spare = daysFromTo(days, at, gateAt);
  const against =
    spare > 0
      ? `${count(spare, 'day')} before the gate`
      : spare < 0
        ? `${count(-spare, 'day')} after the gate`
        : 'the day of the gate';
  return `${inTen}: ready by ${days.atWeekday(at)}, ${against}`;
}
