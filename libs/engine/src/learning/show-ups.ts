import type { Beta } from '../forecast/beliefs.js';
import { normalAt, roughlyBelow } from '../normal.js';

/** How often somebody came when expected. */
export interface ShowUpRecord {
  came: number;
  expected: number;
}

export interface ShowUpLearned {
  chance: Beta;
  mean: number;
  evidence: ShowUpRecord;
}

/** Before anything is known: four times in five, worth five turnouts. */
export const USUAL_SHOW_UP: Beta = { a: 4, b: 1 };

/** Beta prior and a record of yes and no. */
export function showUpOf({ came, expected }: ShowUpRecord, prior: Beta = USUAL_SHOW_UP): ShowUpLearned {
  if (!(came >= 0) || !(expected >= came)) throw new RangeError('nobody comes oftener than expected');
  const chance = { a: prior.a + came, b: prior.b + expected - came };
  return { chance, mean: chance.a / (chance.a + chance.b), evidence: { came, expected } };
}

/** Who was expected at one turnout, each with the chance then held, and who came. */
export interface MetTurnout {
  expected: { chance: number; came: boolean }[];
}

export interface TogetherLearned {
  /** Share of a turnout's luck that all have in common, 0..1; see `Beliefs.together`. */
  together: number;
  /** Standard deviation of what is known of it. */
  spread: number;
  evidence: { turnouts: number; people: number };
}

/**
 * How far people come and stay away together, from the record: the likelihood of one common normal factor a turnout,
 * summed over the factor by quadrature and over the share itself on a grid, with a prior that leans to little
 * (Beta 1, 6: a mean of one in seven; common practice, no source).
 */
export function togetherOf(record: readonly MetTurnout[]): TogetherLearned {
  const met = record.map(({ expected }) =>
    expected
      .filter(({ chance }) => chance > 0 && chance < 1)
      .map(({ chance, came }) => ({ at: normalAt(chance), came })),
  );
  const logs = GRID.map((share) => {
    let log = 5 * Math.log(1 - share);
    const alone = Math.sqrt(1 - share);
    for (const people of met) {
      let sum = 0;
      for (let q = 0; q < POINTS; q++) {
        const shared = Math.sqrt(share) * NODES[q];
        let likely = 1;
        for (const { at, came } of people) {
          const below = roughlyBelow((at - shared) / alone);
          likely *= came ? below : 1 - below;
        }
        sum += likely;
      }
      log += Math.log(Math.max(sum / POINTS, 1e-300));
    }
    return log;
  });
  const top = Math.max(...logs);
  const weights = logs.map((log) => Math.exp(log - top));
  const total = weights.reduce((sum, one) => sum + one, 0);
  const mean = GRID.reduce((sum, share, k) => sum + share * weights[k], 0) / total;
  const square = GRID.reduce((sum, share, k) => sum + share * share * weights[k], 0) / total;
  return {
    together: mean,
    spread: Math.sqrt(Math.max(0, square - mean * mean)),
    evidence: { turnouts: met.length, people: met.reduce((sum, people) => sum + people.length, 0) },
  };
}

const GRID = Array.from({ length: 40 }, (_, k) => (k + 0.5) / 50);
/** Middles of equal shares of the normal: enough for products of a few dozen smooth factors. */
const POINTS = 48;
const NODES = Array.from({ length: POINTS }, (_, q) => normalAt((q + 0.5) / POINTS));
