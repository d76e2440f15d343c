import fc from 'fast-check';
import { feet, inches } from '../measure.js';
import { frameOf, pieceOf } from '../model/ask.js';
import { buildHull } from '../model/build-hull.js';
import { SCHOONER } from '../model/halibut-schooner.fixture.js';
import { HullRefusal } from '../refusal.js';
import { type HalfModel, type Offsets, offsetsOfModel } from './offsets.js';
import { type FuttockPattern, futtockPatterns, outlineOf } from './patterns.js';
import { spline } from './spline.js';
import { unfairReadings } from './surface.js';

const hull = buildHull(SCHOONER);
const AXIS = 3000;

/** A cone lying along the vessel: sections are quarter circles of a radius that grows by `flare` per millimetre aft. */
const radiusAt = (flare: number, aft: number): number => 2200 + flare * aft;
const coneSection = (radius: number, points = 13): { height: number; breadth: number }[] =>
  Array.from({ length: points }, (_, index) => {
    const angle = (Math.PI / 2) * (index / (points - 1));
    return { height: AXIS - radius * Math.cos(angle), breadth: radius * Math.sin(angle) };
  });
const cone = (flare: number, surface: Offsets['surface'] = 'outside of frames'): Offsets => ({
  surface,
  sections: Array.from({ length: 10 }, (_, index) => {
    const at = -feet(2) + index * feet(8);
    return { at, points: coneSection(radiusAt(flare, at)) };
  }),
});
const third = pieceOf(hull, 'frame-12-starboard-futtock-3');
const patternOf = (offsets: Offsets, piece = third): FuttockPattern =>
  futtockPatterns(hull, offsets, [{ piece }])[0];

/** Radius of the circle through three points. */
const radiusOf = ([a, b, c]: { x: number; y: number }[]): number => {
  const side = (p: typeof a, q: typeof a): number => Math.hypot(p.x - q.x, p.y - q.y);
  const area = Math.abs((b.x - a.x) * (c.y - a.y) - (c.x - a.x) * (b.y - a.y)) / 2;
  return (side(a, b) * side(b, c) * side(c, a)) / (4 * area);
};
const threeOf = (points: { x: number; y: number }[]): { x: number; y: number }[] => [
  points[0],
  points[Math.floor(points.length / 2)],
  points.at(-1)!,
];

describe('patterns from a shape whose answer is known', () => {
  it('on a cylinder are arcs of its radius, square all along', () => {
    const pattern = patternOf(cone(0));
    const sagitta = 2200 - Math.sqrt(2200 ** 2 - (pattern.chord / 2) ** 2);
    expect(Math.abs(pattern.sweep - sagitta)).toBeLessThan(0.5); // half a millimetre on a sweep of a foot
    for (const { degrees } of pattern.bevels) expect(Math.abs(degrees)).toBeLessThan(0.01);
  });

  it('on a cone have the cone’s own bevel at every point, open in one layer and closed in the other', () => {
    const flare = 0.08;
    const degrees = (Math.atan(flare) * 180) / Math.PI;
    const aft = patternOf(cone(flare));
    const forward = patternOf(cone(flare), pieceOf(hull, 'frame-12-starboard-futtock-2'));
    for (const bevel of aft.bevels) expect(bevel.degrees).toBeCloseTo(degrees, 1);
    for (const bevel of forward.bevels) expect(bevel.degrees).toBeCloseTo(-degrees, 1);
  });

  it('have the far face where the bevel says it is', () => {
    const pattern = patternOf(cone(0.08));
    const out = radiusOf(threeOf(pattern.farOuter)) - radiusOf(threeOf(pattern.outer));
    expect(out).toBeCloseTo(0.08 * inches(4.5), 0);
  });

  it('leave out the planking where its outside was measured, more on the slant', () => {
    const flare = 0.08;
    const bare = radiusOf(threeOf(patternOf(cone(flare)).outer));
    const planked = radiusOf(threeOf(patternOf(cone(flare, 'outside of planking')).outer));
    expect(bare - planked).toBeCloseTo(inches(2.375) * Math.hypot(1, flare), 0);
  });

  it('are as deep as the frame at every height', () => {
    const { outer, inner } = patternOf(cone(0));
    const depth = (index: number): number =>
      Math.hypot(outer.at(index)!.x - inner.at(index)!.x, outer.at(index)!.y - inner.at(index)!.y);
    const frame = frameOf(hull, 12, 'starboard');
    expect(depth(-1)).toBeCloseTo(frame.moulded.head, 6);
    expect(depth(0)).toBeGreaterThan(depth(-1));
  });

  it('lie with the chord along x, the outside of the hull upwards', () => {
    const pattern = patternOf(cone(0.05));
    expect(Math.hypot(pattern.outer[0].x, pattern.outer[0].y)).toBe(0);
    expect(pattern.outer.at(-1)!.y).toBeCloseTo(0, 6);
    expect(pattern.chord).toBeCloseTo(pattern.outer.at(-1)!.x, 6);
    expect(pattern.sweep).toBeGreaterThan(0);
    expect(Math.min(...pattern.inner.map((point) => point.y))).toBeLessThan(0);
    expect(outlineOf(pattern)).toHaveLength(pattern.outer.length + pattern.inner.length);
  });

  it('can be of a part only, beyond a new joint', () => {
    const [part] = futtockPatterns(hull, cone(0), [{ piece: third, from: 11.5 }]);
    expect(part.chord).toBeLessThan(patternOf(cone(0)).chord);
  });

  it('are refused for frames beyond what was measured', () => {
    const short = { ...cone(0), sections: cone(0).sections.slice(0, 2) };
    expect(() => patternOf(short)).toThrow(HullRefusal);
  });
});

describe('a measured half model', () => {
  const model: HalfModel = {
    scale: 24,
    every: feet(8),
    firstAt: -feet(2),
    surface: 'outside of frames',
    sections: cone(0.05).sections.map(({ points }) =>
      points.map(({ height, breadth }) => ({ height: height / 24, breadth: breadth / 24 })),
    ),
  };

  it('at its scale gives the same patterns as the hull at full size', () => {
    const [fromModel, full] = [patternOf(offsetsOfModel(model)), patternOf(cone(0.05))];
    fromModel.outer.forEach((point, index) => {
      expect(point.x).toBeCloseTo(full.outer[index].x, 4);
      expect(point.y).toBeCloseTo(full.outer[index].y, 4);
    });
  });

  it('shows a misread breadth', () => {
    const misread = structuredClone(model);
    misread.sections[4][6].breadth += 3; // 3 mm on the model, 72 mm full size
    expect(unfairReadings(offsetsOfModel(model), 10)).toEqual([]);
    const found = unfairReadings(offsetsOfModel(misread), 10);
    expect(found.reduce((worst, one) => (one.off > worst.off ? one : worst)).section).toBe(4);
  });

  it('is refused with sections out of order or a scale of nothing', () => {
    expect(() => offsetsOfModel({ ...model, scale: 0 })).toThrow(HullRefusal);
    expect(() => offsetsOfModel({ ...model, sections: [] })).toThrow(HullRefusal);
  });

  it('is refused where no hull has such sizes', () => {
    const each = (change: (point: { height: number; breadth: number }) => object) => ({
      ...model,
      sections: model.sections.map((points) => points.map((point) => ({ ...point, ...change(point) }))),
    });
    const refused = (over: object) => () => offsetsOfModel({ ...model, ...over });
    expect(refused({ scale: 1e300 })).toThrow('scale: 1e+300');
    expect(refused({ scale: 1 })).toThrow('broad');
    expect(refused({ every: 1e6 })).toThrow('longer than a wooden vessel');
    expect(refused(each(() => ({ breadth: 0 })))).toThrow(HullRefusal);
    expect(refused(each(({ breadth }) => ({ height: 50, breadth: breadth + 1 })))).toThrow('rises 0 mm');
    expect(refused(each(({ height }) => ({ height: height * 20 })))).toThrow('rises');
  });
});

describe('the batten', () => {
  it('goes through its points and is straight through points in a line', () => {
    const rising = fc.uniqueArray(fc.integer({ min: -50, max: 50 }), { minLength: 3, maxLength: 8 });
    fc.assert(
      fc.property(rising, fc.integer({ min: -9, max: 9 }), (places, slope) => {
        const ts = [...places].sort((a, b) => a - b);
        const line = spline(
          ts,
          ts.map((t) => 5 + slope * t),
        );
        const bent = spline(
          ts,
          ts.map((t) => t ** 2),
        );
        for (const t of ts) expect(bent.at(t)).toBeCloseTo(t ** 2, 6);
        expect(line.at(ts[0] - 3.3)).toBeCloseTo(5 + slope * (ts[0] - 3.3), 6);
        expect(line.slope((ts[0] + ts[1]) / 2)).toBeCloseTo(slope, 6);
      }),
    );
  });
});
