import fc from 'fast-check';
import { buildHull } from '../model/build-hull.js';
import { SCHOONER } from '../model/halibut-schooner.fixture.js';
import { STARTING_BOOK } from '../methods/book/book.js';
import { changeRate } from '../methods/change.js';
import { HullRefusal } from '../refusal.js';
import { type Drawn } from './drawn.js';
import {
  minimumOpening,
  type MinimumOpening,
  openingAlternatives,
  type OpeningWish,
} from './minimum-opening.js';
import { scopeCounts } from './scope-counts.js';

const hull = buildHull(SCHOONER);
const heads: Drawn[] = [12, 13, 14, 15, 16, 17, 18, 19].flatMap((frame) => [
  { piece: `frame-${frame}-starboard-futtock-3` },
  { piece: `frame-${frame}-starboard-futtock-4` },
]);
const found = (wish: OpeningWish, of = hull): MinimumOpening => {
  const answer = minimumOpening(of, wish);
  if (answer.kind === 'none') throw new Error(answer.unmet.join('; '));
  return answer.opening;
};

describe('the demo survey: frames 12 to 19 starboard decayed from their heads to the first futtock', () => {
  const opening = found({ drawn: heads, aim: 'fewest planks', ceiling: 'strip in way' });

  it('opens strakes 9 to 14, two planks of each', () => {
    const strakes = opening.off.filter((plank) => plank.skin === 'planking').map((plank) => plank.strake);
    expect(strakes).toEqual([9, 9, 10, 10, 11, 11, 12, 12, 13, 13, 14, 14]);
  });

  it('counts 432 plank nails, 112 ceiling nails, 64 stubs, 48 bolts and 192 plugs', () => {
    expect(scopeCounts(hull, heads, opening)).toMatchObject({
      planks: 12,
      ceilingPlanks: 7,
      plankNails: 432,
      ceilingNails: 112,
      stubs: 64,
      bolts: 48,
      plugs: 192,
    });
  });

  it('frees every fastening through the pieces: by its plank, or cut behind strakes 15 and 16, which stay', () => {
    expect(new Set(opening.cut.map((one) => one.plank.strake))).toEqual(new Set([15, 16]));
    expect(opening.waysOut.every((one) => one.way === 'outward')).toBe(true);
  });

  it('says on which face each joint is worked', () => {
    const third = opening.joints.find(({ joint }) => joint.piece.key === 'frame-12-starboard-futtock-3');
    expect(third!.face).toBe('after face, from the bay between frames 12 and 13');
    expect(third!.joint).toMatchObject({ at: 8.3, original: true });
  });

  it('counts the seams once where two open planks meet', () => {
    // 12 planks of 15 ft have 360 ft of edges; neighbours share what they lie side by side.
    const { seamFeet } = scopeCounts(hull, heads, opening);
    expect(seamFeet).toBeGreaterThan(180);
    expect(seamFeet).toBeLessThan(360);
  });

  it('shows other ways with their cost in hours, cheapest first', () => {
    const others = openingAlternatives(hull, { drawn: heads });
    expect(others.length).toBeGreaterThan(1);
    const minutes = others.map((one) => one.personMinutes);
    expect(minutes).toEqual([...minutes].sort((a, b) => a - b));
    const least = found({ drawn: heads, aim: 'least hours', ceiling: 'as the aim has it' });
    expect(minutes[0]).toBe(least.personMinutes);
  });
});

describe('the minimum opening', () => {
  it('says what cannot be reached when planks must stay', () => {
    const answer = minimumOpening(hull, {
      drawn: [{ piece: 'frame-12-starboard-futtock-3' }],
      aim: 'fewest planks',
      ceiling: 'as the aim has it',
      stays: ['strake-10-plank-2-starboard'],
    });
    expect(answer).toEqual({ kind: 'none', unmet: ['frame 12 starboard third futtock has no way out'] });
  });

  it('reckons hours by the yard’s own methods and rates', () => {
    const wish = { drawn: heads, aim: 'fewest planks' as const, ceiling: 'strip in way' as const };
    const slow = changeRate(STARTING_BOOK, 'nails-pulled', { low: 1, likely: 2.5, high: 3 });
    const more = found({ ...wish, book: slow }).personMinutes - found(wish).personMinutes;
    // 432 nails at 2.5 in place of 5 to the hour.
    expect(more / 60).toBeCloseTo(432 / 2.5 - 432 / 5, 0);
  });

  it('refuses a plank that is not there', () => {
    expect(() =>
      found({ drawn: heads, aim: 'fewest planks', ceiling: 'leave', stays: ['strake-99'] }),
    ).toThrow(HullRefusal);
  });

  it('takes a piece inward through the ceiling where that opens less', () => {
    const opening = found({
      drawn: [{ piece: 'frame-12-starboard-futtock-2' }],
      aim: 'fewest planks',
      ceiling: 'as the aim has it',
      stays: ['strake-10-plank-2-starboard'],
    });
    expect(opening.waysOut).toEqual([{ piece: 'frame-12-starboard-futtock-2', way: 'inward' }]);
  });

  it('takes a floor timber out on both sides of the keel', () => {
    const opening = found({
      drawn: [{ piece: 'frame-16-starboard-floor' }],
      aim: 'fewest planks',
      ceiling: 'as the aim has it',
    });
    expect(new Set(opening.off.map((plank) => plank.side))).toEqual(new Set(['port', 'starboard']));
  });

  it('leaves a plank on when only a part beyond a new joint is drawn', () => {
    const part = { piece: 'frame-12-starboard-futtock-3', from: 11.5 };
    const opening = found({ drawn: [part], aim: 'fewest planks', ceiling: 'leave' });
    expect(opening.off.map((plank) => plank.strake)).toEqual([12, 13, 14]);
    expect(opening.joints[0].joint.original).toBe(false);
  });

  it('is never beaten by any other set of planks, tried one by one', () => {
    const small = buildHull({
      ...SCHOONER,
      frames: { ...SCHOONER.frames, count: 6, head: 4, joints: { forward: [2.6], aft: [1.4] } },
      strakes: {
        ...SCHOONER.strakes,
        count: 4,
        bilge: [],
        butts: {
          port: { first: [4], every: 20, leaveAft: 2 },
          starboard: { first: [3, 4], every: 20, leaveAft: 3 },
        },
      },
      ceiling: { ...SCHOONER.ceiling, strakes: 2, from: 1, to: 3.5, buttBays: [] },
      members: [{ name: 'clamp', at: 3.8, width: 100, boltsAtFrame: 1 }],
    });
    const planks = small.planks.filter((plank) => plank.side === 'starboard');
    const pieces = small.frames
      .filter((frame) => frame.side === 'starboard')
      .flatMap((frame) => frame.pieces.filter((piece) => piece.number > 0).map((piece) => piece.key));
    const aims = fc.constantFrom(
      'fewest planks' as const,
      'least hours' as const,
      'fewest fastenings cut' as const,
    );
    const value = (opening: MinimumOpening): number[] => {
      const cut = opening.cut.reduce((sum, one) => sum + one.count, 0);
      if (opening.aim === 'fewest planks') return [opening.off.length, opening.personMinutes];
      return opening.aim === 'least hours' ? [opening.personMinutes] : [cut, opening.personMinutes];
    };
    fc.assert(
      fc.property(fc.subarray(pieces, { minLength: 1, maxLength: 4 }), aims, (chosen, aim) => {
        const wish = {
          drawn: chosen.map((piece) => ({ piece })),
          aim,
          ceiling: 'as the aim has it' as const,
        };
        const best = minimumOpening(small, wish);
        // Everything but one set of planks held in place: the best of all such sets is the best there is.
        let least: number[] | null = null;
        for (let mask = 0; mask < 1 << planks.length; mask += 1) {
          const mayMove = planks.filter((_, index) => mask & (1 << index)).map((plank) => plank.key);
          const stays = planks.map((plank) => plank.key).filter((key) => !mayMove.includes(key));
          const answer = minimumOpening(small, { ...wish, stays, offAnyway: mayMove });
          if (answer.kind === 'none') continue;
          const one = value(answer.opening);
          if (least === null || one[0] < least[0] || (one[0] === least[0] && (one[1] ?? 0) < (least[1] ?? 0)))
            least = one;
        }
        expect(best.kind === 'found' ? value(best.opening) : null).toEqual(least);
      }),
      { numRuns: 6 },
    );
  });
});
