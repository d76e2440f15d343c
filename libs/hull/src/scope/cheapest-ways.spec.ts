import fc from 'fast-check';
import { cheapestWays, compareWeights, type Ways, type Weight } from './cheapest-ways.js';

const valueOf = (things: number[], weights: Weight[]): Weight =>
  things.reduce<number[]>((sum, thing) => sum.map((part, index) => part + weights[thing][index]), [0, 0]);

const meets = (things: number[], needs: Ways[]): boolean =>
  needs.every((ways) => ways.some((way) => way.every((thing) => things.includes(thing))));

/** Every subset tried. */
function bruteForce(needs: Ways[], weights: Weight[]): Weight | null {
  let best: Weight | null = null;
  for (let mask = 0; mask < 1 << weights.length; mask += 1) {
    const things = weights.flatMap((_, thing) => (mask & (1 << thing) ? [thing] : []));
    if (!meets(things, needs)) continue;
    const value = valueOf(things, weights);
    if (best === null || compareWeights(value, best) < 0) best = value;
  }
  return best;
}

describe('the cheapest planks that meet every need', () => {
  const way = fc.uniqueArray(fc.integer({ min: 0, max: 8 }), { minLength: 1, maxLength: 4 });
  const needs = fc.array(fc.array(way, { minLength: 1, maxLength: 3 }), { maxLength: 7 });

  it('are as cheap as trying every set of planks', () => {
    const weight = fc.tuple(fc.integer({ min: -1, max: 3 }), fc.integer({ min: -5, max: 9 }));
    fc.assert(
      fc.property(needs, fc.array(weight, { minLength: 9, maxLength: 9 }), (wanted, weights) => {
        const taken = cheapestWays(wanted, weights);
        expect(taken !== null && meets(taken, wanted)).toBe(true);
        expect(valueOf(taken!, weights)).toEqual(bruteForce(wanted, weights));
      }),
      { numRuns: 400 },
    );
  });

  it('are none where a need has no way', () => {
    expect(cheapestWays([[[0]], []], [[1, 1]])).toBeNull();
  });

  it('are found at once for forty alike needs', () => {
    const alike = Array.from({ length: 40 }, (_, index) => [
      [index, index + 1, index + 2],
      [50 + (index % 20), 51 + (index % 20)],
    ]);
    const taken = cheapestWays(
      alike,
      Array.from({ length: 80 }, (_, thing) => [1, thing % 7]),
    );
    expect(meets(taken!, alike)).toBe(true);
  });
});
