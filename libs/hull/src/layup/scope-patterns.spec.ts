import { feet, inches } from '../measure.js';
import { buildHull } from '../model/build-hull.js';
import { SCHOONER } from '../model/halibut-schooner.fixture.js';
import { type Offsets } from '../shape/offsets.js';
import { boxOf } from './polygon.js';
import { stockPatterns } from './scope-patterns.js';

const hull = buildHull(SCHOONER);
const offsets: Offsets = {
  surface: 'outside of frames',
  sections: Array.from({ length: 10 }, (_, index) => ({
    at: -feet(2) + index * feet(8),
    points: Array.from({ length: 9 }, (_unused, step) => {
      const angle = (Math.PI / 2) * (step / 8);
      return { height: 3000 - 2600 * Math.cos(angle), breadth: 2600 * Math.sin(angle) };
    }),
  })),
};
const drawn = [{ piece: 'frame-12-starboard-futtock-3' }];
const plank = hull.planks.find((one) => one.skin === 'planking')!;

describe('patterns for the new wood of a repair', () => {
  it('are there for each piece once she is measured, futtocks bent, planks straight', () => {
    const found = stockPatterns(hull, { drawn, planks: [plank.key], offsets, margin: inches(0.75) });
    expect(found.map((one) => one.key)).toEqual([drawn[0].piece, plank.key]);
    const [futtock, straight] = found;
    expect(futtock.thickness).toBeCloseTo(inches(4.5));
    expect(straight.thickness).toBeCloseTo(inches(2.375));
    const { right, high } = boxOf(straight.outline);
    expect(high).toBeCloseTo(inches(8) + 2 * inches(0.75));
    expect(right).toBeGreaterThan(feet(10));
  });

  it('leave the futtocks out before she is measured', () => {
    const found = stockPatterns(hull, { drawn, planks: [plank.key], offsets: null, margin: 19 });
    expect(found.map((one) => one.key)).toEqual([plank.key]);
  });

  it('leave out the futtocks of frames that no section reaches', () => {
    const short = { ...offsets, sections: offsets.sections.slice(0, 3) };
    const both = [{ piece: 'frame-5-starboard-futtock-3' }, ...drawn];
    const found = stockPatterns(hull, { drawn: both, planks: [plank.key], offsets: short, margin: 19 });
    expect(found.map((one) => one.key)).toEqual([both[0].piece, plank.key]);
  });

  it('are only as long as the part beyond a new joint', () => {
    const [whole] = stockPatterns(hull, { drawn, planks: [], offsets, margin: 0 });
    const [part] = stockPatterns(hull, {
      drawn: [{ ...drawn[0], from: 11 }],
      planks: [],
      offsets,
      margin: 0,
    });
    const long = (points: typeof whole.outline) => boxOf(points).right - boxOf(points).left;
    expect(long(part.outline)).toBeLessThan(long(whole.outline) * 0.7);
  });
});
