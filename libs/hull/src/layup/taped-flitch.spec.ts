import fc from 'fast-check';
import { inches } from '../measure.js';
import { HullRefusal } from '../refusal.js';
import { areaOf, boxOf } from './polygon.js';
import { flitchOf, type TapedFlitch } from './taped-flitch.js';

const taped = (over: Partial<TapedFlitch> = {}): TapedFlitch => ({
  key: 'C1a',
  name: 'C1a',
  thickness: 127,
  length: 2400,
  widths: [600, 500],
  sweep: 0,
  sapwood: 20,
  defects: [],
  ...over,
});

describe('a flitch that was taped', () => {
  it('straight, is a trapezium as long and as wide as the tape said', () => {
    const { outline, grain } = flitchOf(taped());
    expect(areaOf(outline)).toBeCloseTo((2400 * (600 + 500)) / 2, 3);
    expect(boxOf(outline)).toEqual({ left: 0, right: 2400, low: -300, high: 300 });
    expect(grain[0]).toEqual({ x: 0, y: 0 });
    expect(grain.at(-1)).toEqual({ x: 2400, y: 0 });
  });

  it('bent, has its grain as far off the chord in the middle as the line showed, and keeps its area', () => {
    const bent = flitchOf(taped({ sweep: 200, widths: [500, 500, 500] }));
    expect(Math.max(...bent.grain.map((point) => point.y))).toBeCloseTo(200, 6);
    // An even band along a parabola: its length times its width.
    const length = bent.grain.slice(1).reduce((sum, point, index) => {
      const before = bent.grain[index];
      return sum + Math.hypot(point.x - before.x, point.y - before.y);
    }, 0);
    expect(areaOf(bent.outline)).toBeCloseTo(length * 500, -4);
  });

  it('has its defects where they were taped, from the butt and off the middle line', () => {
    const [knot] = flitchOf(
      taped({ defects: [{ along: 1000, across: 100, length: 80, width: 60 }] }),
    ).defects;
    expect(boxOf(knot)).toEqual({ left: 960, right: 1040, low: 70, high: 130 });
  });

  it('is refused with the field that cannot be', () => {
    const refused = (over: Partial<TapedFlitch>) => () => flitchOf(taped(over));
    expect(refused({ widths: [600] })).toThrow(HullRefusal);
    expect(refused({ widths: [600, 0] })).toThrow('widths[1]');
    expect(refused({ sweep: 1000 })).toThrow('sweep');
    expect(refused({ sapwood: 250 })).toThrow('sapwood');
    expect(refused({ defects: [{ along: 3000, across: 0, length: 10, width: 10 }] })).toThrow(
      'defects[0].along',
    );
  });

  it('is refused where no tree gives such sizes', () => {
    const most = 2_147_483_647;
    const field = (over: Partial<TapedFlitch>): string => {
      try {
        flitchOf(taped(over));
      } catch (fault) {
        if (fault instanceof HullRefusal) return fault.field;
        throw fault;
      }
      return 'taken';
    };
    const defect = { along: 1000, across: 0, length: 80, width: 60 };
    expect(field({ length: most })).toBe('length');
    expect(field({ thickness: most })).toBe('thickness');
    expect(field({ widths: [600, most] })).toBe('widths[1]');
    expect(field({ length: 30_000, sweep: 9_000 })).toBe('sweep');
    expect(field({ defects: [{ ...defect, across: -most }] })).toBe('defects[0].across');
    expect(field({ defects: [{ ...defect, width: most }] })).toBe('defects[0].width');
    expect(field({ defects: [defect] })).toBe('taken');
  });

  it('encloses something for any measures that it takes', () => {
    const width = fc.integer({ min: 100, max: 900 });
    fc.assert(
      fc.property(
        fc.integer({ min: 1000, max: 6000 }),
        fc.array(width, { minLength: 2, maxLength: 8 }),
        fc.double({ min: -0.12, max: 0.12, noNaN: true }),
        (length, widths, bend) => {
          const flitch = flitchOf(taped({ length, widths, sweep: bend * length, sapwood: inches(0.5) }));
          expect(areaOf(flitch.outline)).toBeGreaterThan(length * Math.min(...widths) * 0.9);
        },
      ),
    );
  });
});
