import type { Gamma } from '../forecast/beliefs.js';
import type { Tally } from './tally.js';

/**
 * Wright's learning curve (1936): each doubling of the pieces done brings the time for one down to the same share of
 * itself. Unit theory: the time of piece x is first * x^b. Cumulative-average theory: the mean time of the first x
 * pieces is. b = log2(share).
 */
export interface Learning {
  /** Share of the time that is left at each doubling, below 1 where a crew gets quicker. */
  share: number;
  /** log2 of the share. */
  exponent: number;
  /** How many times likelier the record is with learning than with an even pace. */
  evidence: number;
}

export function unitTime(first: number, share: number, piece: number): number {
  return first * piece ** Math.log2(share);
}

/** Time of the first `pieces` where single pieces follow the curve. */
export function totalByUnits(first: number, share: number, pieces: number): number {
  let sum = 0;
  for (let x = 1; x <= pieces; x++) sum += unitTime(first, share, x);
  return sum;
}

/** Time of the first `pieces` where their mean follows the curve. */
export function totalByAverage(first: number, share: number, pieces: number): number {
  return pieces * unitTime(first, share, pieces);
}

/** How much quicker than at the first piece, after `done` pieces. */
export function stepOf(done: number, exponent: number): number {
  return (done + 1) ** -exponent;
}

/** Shares looked at, from quick learners to slow ones. */
const SHARES = [0.75, 0.8, 0.85, 0.9, 0.95];
/** Odds at which learning is believed: "strong" by Kass and Raftery (1995) begins at 20. */
const STRONG = 20;
const FEWEST = 4;

/**
 * Whether the record shows learning, by comparing how likely it is with and without: counts as negative binomial with
 * the spread from turnout to turnout given, the first pace from a wide Gamma, both summed out on a grid.
 */
export function learningOf(tallies: readonly Tally[], prior: Gamma, byTurnout: number): Learning | null {
  if (tallies.length < FEWEST) return null;
  const even = logEvidence(tallies, prior, byTurnout, 0);
  const curves = SHARES.map((share) => logEvidence(tallies, prior, byTurnout, Math.log2(share)));
  const best = Math.max(...curves);
  const weights = curves.map((one) => Math.exp(one - best));
  const sum = weights.reduce((total, one) => total + one, 0);
  const evidence = Math.exp(Math.min(700, best - even)) * (sum / SHARES.length);
  if (evidence < STRONG) return null;
  const share = SHARES.reduce((total, one, k) => total + one * weights[k], 0) / sum;
  return { share, exponent: Math.log2(share), evidence };
}

function logEvidence(tallies: readonly Tally[], prior: Gamma, byTurnout: number, exponent: number): number {
  let done = 0;
  const exposures = tallies.map(({ count, hours }) => {
    const step = stepOf(done + count / 2, exponent);
    done += count;
    return hours * step;
  });
  // The prior is about the pace of a crew that knows the work; the first pace is asked for about the middle of it.
  const middle = stepOf(done / 2, exponent);
  const size = 1 / byTurnout ** 2;
  const points = 64;
  const logs = new Float64Array(points);
  let top = -Infinity;
  for (let k = 0; k < points; k++) {
    // From a tenth to ten times the prior's mean, on the logarithm.
    const pace = (prior.shape / prior.rate) * 10 ** ((2 * (k + 0.5)) / points - 1);
    let log = WIDTH * prior.shape * Math.log(pace) - WIDTH * prior.rate * pace;
    tallies.forEach(({ count }, t) => {
      const mean = (pace / middle) * exposures[t];
      log += count * Math.log(mean / (mean + size)) + size * Math.log(size / (mean + size));
    });
    logs[k] = log;
    if (log > top) top = log;
  }
  let total = 0;
  for (const log of logs) total += Math.exp(log - top);
  return top + Math.log(total);
}

/** The first pace is known less well than the pace of old hands: a quarter of the prior's worth. */
const WIDTH = 0.25;
