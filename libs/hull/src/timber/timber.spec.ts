import fc from 'fast-check';
import {
  boardFeet,
  DECIMAL_C_PRINTED,
  doyle,
  internationalQuarter,
  LOG_RULES,
  scribner,
  usableLog,
} from './log-rules.js';
import { equilibriumMoisture, readyBy, SHRINKAGE, wetness, widthAfterDrying } from './moisture.js';
import { buildHull } from '../model/build-hull.js';
import { SCHOONER } from '../model/halibut-schooner.fixture.js';
import { framePiecePounds, plankPounds } from './element-weight.js';
import { DENSITY, pieceWeight, plugFor, sizesFor } from './sizes.js';

describe('board feet and weight', () => {
  it('a plank of 2 3/8 by 9 inches by 20 ft has 35.6 board feet (computed)', () => {
    expect(boardFeet(2.375, 9, 20)).toBeCloseTo(35.625, 3);
  });

  it('and 2.97 cubic feet, about 100 lb dry and 115 green: four carriers (computed; densities from memory, Wood Handbook)', () => {
    const dry = pieceWeight(2.375, 9, 20, DENSITY['Douglas fir, dry']);
    const green = pieceWeight(2.375, 9, 20, DENSITY['Douglas fir, green']);
    expect(dry.cubicFeet).toBeCloseTo(2.97, 2);
    expect(Math.abs(dry.pounds - 100)).toBeLessThan(2);
    expect(Math.abs(green.pounds - 115)).toBeLessThan(2);
    expect(green).toMatchObject({ carriers: 4, liftingGear: false });
  });

  it('a plank weighs by its length from butt to butt, a frame piece by its part; a floor lies on both sides (by hand)', () => {
    const hull = buildHull(SCHOONER);
    const green = DENSITY['Douglas fir, green'];
    // Nine bays of 20 in are 15 ft: 2 3/8 x 8 in x 15 ft at 39 lb.
    const plank = hull.planks.find((one) => one.skin === 'planking' && one.lastFrame - one.firstFrame === 8);
    expect(plank && plankPounds(hull, plank, green)).toBeCloseTo(77.19, 2);
    const frame = hull.frames.find((one) => one.number === 12);
    const piece = (number: number) => frame?.pieces.find((one) => one.number === number);
    const [floor, fourth] = [piece(0), piece(4)];
    if (!frame || !floor || !fourth) throw new Error('the frame has no such pieces');
    // 4.3 strakes of 8 in to each side, moulded 8.6 in there; the upper two strakes' worth of the top one, 6.19 in.
    expect(framePiecePounds(hull, frame, floor, green)).toBeCloseTo(60.07, 2);
    expect(framePiecePounds(hull, frame, fourth, green, { from: 14 })).toBeCloseTo(10.05, 2);
  });

  it('more than four carriers, or a lift above the chest or on staging, is for lifting gear (from memory)', () => {
    expect(pieceWeight(4.5, 9, 14, 39).liftingGear).toBe(true);
    expect(pieceWeight(1, 6, 6, 34, true).liftingGear).toBe(true);
  });
});

describe('log rules for a 16 ft log', () => {
  const table = (rule: (diameter: number, length: number) => number, diameters: number[]): number[] =>
    diameters.map((diameter) => rule(diameter, 16));

  it('Doyle (from memory: Doyle rule as tabled in forestry handbooks)', () => {
    expect(table(doyle, [12, 16, 20, 24, 30, 36])).toEqual([64, 144, 256, 400, 676, 1024]);
    expect([doyle(12, 8), doyle(20, 8)]).toEqual([32, 128]);
  });

  it('International 1/4 inch (Michigan Act 208 of 1941, MCL 290.401; computed values)', () => {
    const computed = [64.6, 96.9, 135.6, 180.6, 232.0, 289.7, 424.4, 674.1];
    table(internationalQuarter, [10, 12, 14, 16, 18, 20, 24, 30]).forEach((feet, index) => {
      expect(feet).toBeCloseTo(computed[index], 1);
    });
  });

  it('International 1/4 inch comes within 5 of the printed tables, which are rounded to 5 (from memory)', () => {
    const printed = [65, 95, 135, 180, 230, 290, 425, 675];
    table(internationalQuarter, [10, 12, 14, 16, 18, 20, 24, 30]).forEach((feet, index) => {
      expect(Math.round(feet / 5) * 5).toBe(printed[index]);
    });
  });

  it('Scribner by its formula (from memory: USDA Forest Service handbooks; computed values)', () => {
    const computed = [85.8, 166.2, 272.0, 403.0, 647.0];
    table(scribner, [12, 16, 20, 24, 30]).forEach((feet, index) => {
      expect(feet).toBeCloseTo(computed[index], 1);
    });
  });

  it('the printed Decimal C table is not the formula (The Farm and Garden Rule Book, L. H. Bailey)', () => {
    const printed = DECIMAL_C_PRINTED.find((point) => point.diameter === 30)!;
    expect(printed.tens * 10).toBe(660);
    expect(scribner(30, 16)).toBeLessThan(printed.tens * 10);
    expect(DECIMAL_C_PRINTED.find((point) => point.diameter === 6 && point.length === 8)!.tens).toBe(0.5);
  });

  it('never give less for a thicker or longer log, whatever the rule', () => {
    const size = fc.double({ min: 5, max: 40, noNaN: true });
    fc.assert(
      fc.property(size, size, fc.double({ min: 0, max: 5, noNaN: true }), (diameter, length, more) => {
        for (const { boardFeet: feet } of LOG_RULES) {
          expect(feet(diameter + more, length)).toBeGreaterThanOrEqual(feet(diameter, length) - 1e-9);
          expect(feet(diameter, length + more)).toBeGreaterThanOrEqual(feet(diameter, length) - 1e-9);
        }
      }),
    );
  });
});

describe('what a log gives', () => {
  it('85 percent of the diameter is 72.25 percent of the area and a square of 0.601 diameters (common practice; computed)', () => {
    expect(usableLog(16).area).toBeCloseTo(0.7225, 4);
    expect(usableLog(1).square).toBeCloseTo(0.601, 3);
    expect(usableLog(16).square).toBeCloseTo(9.6, 1);
    expect(usableLog(20).square).toBeCloseTo(12.0, 1);
  });
});

describe('moisture', () => {
  it('comes to rest as by Hailwood-Horrobin (from memory: Wood Handbook, FPL; computed values)', () => {
    const rest = [
      [70, 0.65, 11.96],
      [70, 0.5, 9.25],
      [60, 0.75, 14.62],
      [50, 0.8, 16.39],
      [70, 0.3, 6.17],
    ] as const;
    for (const [fahrenheit, humidity, percent] of rest)
      expect(equilibriumMoisture(fahrenheit, humidity)).toBeCloseTo(percent, 2);
  });

  it('rises with humidity and stays between 0 and fibre saturation', () => {
    const air = fc.double({ min: 0, max: 0.95, noNaN: true });
    fc.assert(
      fc.property(
        fc.integer({ min: 30, max: 100 }),
        air,
        fc.double({ min: 0, max: 0.05, noNaN: true }),
        (t, h, more) => {
          expect(equilibriumMoisture(t, h + more)).toBeGreaterThanOrEqual(equilibriumMoisture(t, h));
          expect(equilibriumMoisture(t, h)).toBeGreaterThanOrEqual(0);
          expect(equilibriumMoisture(t, h)).toBeLessThan(30);
        },
      ),
    );
  });

  it('readings are named: planking hangs at 12 to 16 percent (from memory: NVIC 7-95, chapter 3.A), above 20 is flagged', () => {
    expect([14, 18, 22, 29, 9].map(wetness)).toEqual([
      'dry enough to hang',
      'damp',
      'flagged',
      'green',
      'drier than planking',
    ]);
  });

  it('shrinks fir and oak by the whole from green to oven-dry (from memory: Wood Handbook, chapter 4)', () => {
    expect(widthAfterDrying(100, 'Douglas fir (coast)', 'tangential', 35, 0)).toBeCloseTo(92.4);
    expect(widthAfterDrying(100, 'white oak', 'radial', 30, 0)).toBeCloseTo(94.4);
    expect(SHRINKAGE['white oak'].tangential).toBe(0.105);
    expect(widthAfterDrying(8, 'Douglas fir (coast)', 'radial', 15, 15)).toBe(8);
  });

  it('falls towards rest: a date comes from the readings, or a reason why there is none', () => {
    // 12 above rest on day 0, 6 on day 40, so 3 above rest on day 80.
    const readings = [
      { day: 0, percent: 24 },
      { day: 40, percent: 18 },
    ];
    expect(readyBy(readings, 12, 15)).toMatchObject({ kind: 'on', day: 80 });
    expect(readyBy(readings, 15, 15).kind).toBe('not by itself');
    expect(readyBy([...readings, { day: 90, percent: 14 }], 12, 15).kind).toBe('ready');
    expect(
      readyBy(
        [
          { day: 0, percent: 20 },
          { day: 9, percent: 21 },
        ],
        12,
        15,
      ).kind,
    ).toBe('not by itself');
    expect(() => readyBy([{ day: 0, percent: 20 }], 12, 15)).toThrow('two or more');
  });
});

describe('sizes that go by the plank (common practice)', () => {
  it('a 2 3/8 inch plank takes 3/8 by 5 to 5 1/2 inch nails', () => {
    const { nailLength, nailSide } = sizesFor(2.375);
    expect(nailLength.low).toBeLessThanOrEqual(5);
    expect(nailLength.high).toBeGreaterThanOrEqual(5.5);
    expect(nailSide.low).toBeLessThanOrEqual(0.375);
    expect(nailSide.high).toBeGreaterThanOrEqual(0.375);
  });

  it('bungs go in a quarter to a third of the plank, half to three quarters of an inch here', () => {
    const { bungDepth, steamHours } = sizesFor(2.375);
    expect(bungDepth.low).toBeCloseTo(0.594, 3);
    expect(bungDepth.high).toBeCloseTo(0.792, 3);
    expect(steamHours).toBe(2.375);
  });

  it('a hole takes the plug of the next sixteenth', () => {
    expect([plugFor(0.375), plugFor(0.4), plugFor(0.5)]).toEqual([0.375, 0.4375, 0.5]);
  });
});
