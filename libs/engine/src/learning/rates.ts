import type { Gamma } from '../forecast/beliefs.js';
import { learningOf, stepOf, type Learning } from './learning-curve.js';
import type { Tally } from './tally.js';

/** The method's range of pieces a person-hour: nine crews in ten lie within it. */
export interface RateRange {
  low: number;
  high: number;
}

export interface RateLearned {
  /** Pieces a person-hour to expect from now on. */
  pace: Gamma;
  /** How much it differs from turnout to turnout, standard deviation over mean. */
  byTurnout: number;
  /** The crew getting quicker with each piece, where the record shows it. */
  learning: Learning | null;
  evidence: RateEvidence;
}

/** What it rests on, for saying so: "11 nails a person-hour from 6 turnouts; the book said 8 to 20". */
export interface RateEvidence {
  turnouts: number;
  pieces: number;
  hours: number;
  book: RateRange;
  /** Set by hand instead of learned, and why. */
  pinned: { pace: number; reason: string } | null;
}

/** Spread from turnout to turnout before anything is known, and how many turnouts that guess is worth. */
const USUAL_BY_TURNOUT = 0.25;
const WORTH = 4;

/**
 * The pace of a kind of work from its tallies: a Gamma prior with the mean of the range and nine tenths of it inside
 * (normal approximation), then counts as Poisson of hours times pace (conjugate; Gelman et al., Bayesian Data
 * Analysis, 2.6). Counts differ more from turnout to turnout than Poisson would have it, so each turnout weighs
 * 1 / (1 + b2 m) of itself, m being the count expected and b the relative spread found in the record (as in
 * quasi-likelihood for negative binomial counts; McCullagh and Nelder 1989).
 */
export function rateOf(tallies: readonly Tally[], book: RateRange): RateLearned {
  const prior = gammaOfRange(book);
  const evidence: RateEvidence = {
    turnouts: tallies.length,
    pieces: tallies.reduce((sum, { count }) => sum + count, 0),
    hours: tallies.reduce((sum, { hours }) => sum + hours, 0),
    book: { ...book },
    pinned: null,
  };
  const even = tallies.map(({ count, hours }) => ({ count, exposure: hours }));
  const byTurnout = byTurnoutOf(even, prior);
  const learning = learningOf(tallies, prior, byTurnout);
  if (learning === null) return { pace: updated(even, prior, byTurnout), byTurnout, learning, evidence };
  // Hours as if all were worked at the step that the crew has reached now.
  const now = stepOf(evidence.pieces, learning.exponent);
  let done = 0;
  const grown = tallies.map(({ count, hours }) => {
    const step = stepOf(done + count / 2, learning.exponent);
    done += count;
    return { count, exposure: (hours * step) / now };
  });
  const spread = byTurnoutOf(grown, prior);
  return { pace: updated(grown, prior, spread), byTurnout: spread, learning, evidence };
}

/** The shipwright's word in place of what was learned; the evidence stays to be seen. */
export function pinRate(learned: RateLearned, pace: number, reason: string): RateLearned {
  if (!(pace > 0)) throw new RangeError('a pace is above 0');
  if (reason.trim() === '') throw new RangeError('a pinned pace has a reason');
  return {
    ...learned,
    pace: { shape: PINNED, rate: PINNED / pace },
    learning: null,
    evidence: { ...learned.evidence, pinned: { pace, reason } },
  };
}

/** As good as certain, and still a Gamma: a thousandth of spread. */
const PINNED = 1e6;

/** Mean in the middle of the range, a tenth of the chance outside it. */
export function gammaOfRange({ low, high }: RateRange): Gamma {
  if (!(low > 0) || !(high >= low)) throw new RangeError('a range of paces goes from above 0 upwards');
  const mean = (low + high) / 2;
  // 1.645 standard deviations each way hold 90 %. A range of one figure is still not certain.
  const sd = Math.max((high - low) / (2 * 1.645), 0.02 * mean);
  return { shape: (mean / sd) ** 2, rate: mean / sd ** 2 };
}

/** Crews of one kind of work: each leans on the kind's own pace as far as its record is short. */
export function ratesByCrew(
  byCrew: ReadonlyMap<string, readonly Tally[]>,
  book: RateRange,
): { all: RateLearned; crews: Map<string, RateLearned> } {
  const all = rateOf([...byCrew.values()].flat(), book);
  const mean = all.pace.shape / all.pace.rate;
  const cv = Math.sqrt(1 / all.pace.shape + BETWEEN_CREWS ** 2);
  const half = 1.645 * cv * mean;
  const around = { low: Math.max(mean / 10, mean - half), high: mean + half };
  const crews = new Map<string, RateLearned>();
  for (const [crew, tallies] of byCrew) {
    const learned = rateOf(tallies, around);
    crews.set(crew, { ...learned, evidence: { ...learned.evidence, book: { ...book } } });
  }
  return { all, crews };
}

/** How far crews of one yard differ, standard deviation over mean: common practice, no source. */
const BETWEEN_CREWS = 0.25;

/**
 * Work without a count: how many hours of its estimate an hour does. Each finished task's hours over its estimate are
 * taken as Gamma with relative spread `own`; 1 is as estimated.
 * @param trust how many finished tasks the estimates themselves are worth
 */
export function paceOfFinished(
  finished: readonly { plannedMinutes: number; workedMinutes: number }[],
  own = 0.35,
  trust = 2,
): Gamma {
  const worth = 1 / own ** 2;
  const ratios = finished.filter(({ plannedMinutes }) => plannedMinutes > 0);
  const over = ratios.reduce((sum, one) => sum + one.workedMinutes / one.plannedMinutes, 0);
  return { shape: (trust + ratios.length) * worth, rate: (trust + over) * worth };
}

export interface Exposed {
  count: number;
  /** Hours, weighed. */
  exposure: number;
}

function updated(turnouts: readonly Exposed[], prior: Gamma, byTurnout: number): Gamma {
  let { shape, rate } = prior;
  // The weights need the pace that they give: a few rounds settle it.
  let pace = prior.shape / prior.rate;
  for (let round = 0; round < 20; round++) {
    ({ shape, rate } = prior);
    for (const { count, exposure } of turnouts) {
      const weight = 1 / (1 + byTurnout ** 2 * pace * exposure);
      shape += weight * count;
      rate += weight * exposure;
    }
    const next = shape / rate;
    if (Math.abs(next - pace) < 1e-9 * pace) break;
    pace = next;
  }
  return { shape, rate };
}

/** Method of moments about the pace found, leaning on the usual spread where turnouts are few. */
function byTurnoutOf(turnouts: readonly Exposed[], prior: Gamma): number {
  const usual = USUAL_BY_TURNOUT ** 2;
  if (turnouts.length < 2) return USUAL_BY_TURNOUT;
  const { shape, rate } = updated(turnouts, prior, USUAL_BY_TURNOUT);
  const pace = shape / rate;
  let excess = 0;
  for (const { count, exposure } of turnouts) {
    const mean = pace * exposure;
    // One count says more about the spread the larger it is.
    excess += ((count - mean) ** 2 - mean) / (mean ** 2 + mean / usual);
  }
  const worth = turnouts.reduce((sum, { exposure }) => {
    const mean = pace * exposure;
    return sum + mean ** 2 / (mean ** 2 + mean / usual);
  }, 0);
  const share = (worth - 1) / Math.max(1e-9, worth);
  const found = share > 0 ? excess / worth / share : usual;
  const square = (WORTH * usual + Math.max(0, worth - 1) * found) / (WORTH + Math.max(0, worth - 1));
  return Math.min(1, Math.max(0.05, Math.sqrt(Math.max(0, square))));
}
