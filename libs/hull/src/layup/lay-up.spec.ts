import fc from 'fast-check';
import { feet, inches } from '../measure.js';
import { pieceOf } from '../model/ask.js';
import { buildHull } from '../model/build-hull.js';
import { SCHOONER } from '../model/halibut-schooner.fixture.js';
import { HullRefusal } from '../refusal.js';
import { futtockPatterns, type Point } from '../shape/patterns.js';
import { type LayUp, layUp, stockPatternOf } from './lay-up.js';
import { apartBy, areaOf, insideBy } from './polygon.js';
import { type Flitch, type StockPattern } from './stock.js';
import { wantedList } from './wanted.js';

/** A strip of a ring: as a futtock lies on the floor. */
const arc = (radius: number, degrees: number, depth: number, key: string): StockPattern => {
  const at = (r: number, share: number): Point => {
    const angle = ((share - 0.5) * degrees * Math.PI) / 180;
    return { x: r * Math.sin(angle), y: r * Math.cos(angle) - radius };
  };
  const along = (r: number): Point[] => Array.from({ length: 13 }, (_, index) => at(r, index / 12));
  return {
    key,
    name: key,
    outline: [...along(radius), ...along(radius - depth).reverse()],
    centre: along(radius - depth / 2),
    thickness: 110,
  };
};
const straight = (length: number, width: number, key: string): StockPattern => ({
  key,
  name: key,
  outline: [
    { x: 0, y: 0 },
    { x: length, y: 0 },
    { x: length, y: width },
    { x: 0, y: width },
  ],
  centre: [
    { x: 0, y: width / 2 },
    { x: length, y: width / 2 },
  ],
  thickness: 110,
});
const board = (length: number, width: number, key: string, more: Partial<Flitch> = {}): Flitch => ({
  ...straight(length, width, key),
  grain: straight(length, width, key).centre,
  sapwood: 20,
  defects: [],
  thickness: 120,
  ...more,
});
/** A crook: a flitch whose grain is bent like the futtock itself. */
const crook = (radius: number, key: string): Flitch => {
  const { outline, centre } = arc(radius, 45, 420, key);
  return { key, name: key, outline, grain: centre, sapwood: 20, defects: [], thickness: 120 };
};

function expectSound(result: LayUp, stock: Flitch[], apart = 12): void {
  for (const one of result.placed) {
    const flitch = stock.find((other) => other.key === one.flitch)!;
    expect(insideBy(one.outline, flitch.outline, flitch.sapwood)).toBe(true);
    for (const defect of flitch.defects) expect(apartBy(one.outline, defect, 0)).toBe(true);
    for (const other of result.placed)
      if (other !== one && other.flitch === one.flitch)
        expect(apartBy(one.outline, other.outline, apart)).toBe(true);
  }
}

describe('patterns laid up on stock', () => {
  it('lie inside the sapwood, clear of defects and of each other', () => {
    const knot = [
      { x: 900, y: 180 },
      { x: 1000, y: 180 },
      { x: 1000, y: 260 },
      { x: 900, y: 260 },
    ];
    const stock = [board(4000, 450, 'flitch-1', { defects: [knot] })];
    const patterns = ['a', 'b', 'c', 'd'].map((key) => straight(1200, 150, key));
    const result = layUp({ patterns, stock, seed: 1, tries: 2 });
    expect(result.wanting).toEqual([]);
    expectSound(result, stock);
  });

  it('keep the grain along the piece: a bent futtock is refused on straight stock and taken on a crook', () => {
    const futtock = arc(2200, 35, 190, 'third futtock');
    const onBoard = layUp({ patterns: [futtock], stock: [board(2000, 700, 'board')], seed: 1 });
    expect(onBoard.wanting).toEqual([{ pattern: 'third futtock', why: 'no place with room and grain' }]);
    const stock = [board(2000, 700, 'board'), crook(2300, 'crook')];
    const onCrook = layUp({ patterns: [futtock], stock, seed: 1, tries: 1 });
    expect(onCrook.placed[0].flitch).toBe('crook');
    expect(onCrook.placed[0].runOut).toBeLessThanOrEqual(1 / 8);
    expectSound(onCrook, stock);
  });

  it('go on straight stock where the shipwright allows more run-out', () => {
    const futtock = arc(2200, 35, 190, 'third futtock');
    const result = layUp({ patterns: [futtock], stock: [board(2000, 700, 'board')], runOut: 0.4, seed: 1 });
    expect(result.wanting).toEqual([]);
  });

  it('use a flitch that is begun before a fresh one, and a small one before a big one', () => {
    const stock = [board(6000, 600, 'big'), board(2700, 420, 'small')];
    const patterns = ['a', 'b'].map((key) => straight(1200, 150, key));
    const result = layUp({ patterns, stock, seed: 1 });
    expect(new Set(result.placed.map((one) => one.flitch))).toEqual(new Set(['small']));
    expect(result.stockUsed).toBeCloseTo(areaOf(stock[1].outline));
  });

  it('tell what is wanting and why', () => {
    const thick = { ...straight(1200, 150, 'thick'), thickness: 200 };
    const result = layUp({
      patterns: [thick, straight(9000, 150, 'long')],
      stock: [board(4000, 450, 'one')],
      seed: 1,
    });
    expect(result.wanting).toEqual([
      { pattern: 'long', why: 'no place with room and grain' },
      { pattern: 'thick', why: 'no stock is thick enough' },
    ]);
  });

  it('are the same for the same seed', () => {
    const wish = {
      patterns: ['a', 'b', 'c'].map((key, index) => straight(900 + 200 * index, 140, key)),
      stock: [board(3000, 400, 'one'), board(2500, 300, 'two')],
      seed: 7,
      tries: 2,
    };
    expect(layUp(wish)).toEqual(layUp(wish));
  });

  it('are sound and lose nothing, for any patterns and stock', () => {
    const size = fc.tuple(fc.integer({ min: 300, max: 1800 }), fc.integer({ min: 80, max: 260 }));
    fc.assert(
      fc.property(
        fc.array(size, { minLength: 1, maxLength: 6 }),
        fc.array(size, { minLength: 1, maxLength: 3 }),
        (pieces, boards) => {
          const patterns = pieces.map(([length, width], index) => straight(length, width, `p${index}`));
          const stock = boards.map(([length, width], index) => board(length * 2, width * 2, `f${index}`));
          const result = layUp({ patterns, stock, seed: 3, tries: 2, step: 50 });
          expect(result.placed.length + result.wanting.length).toBe(patterns.length);
          expect(result.stockUsed).toBeGreaterThanOrEqual(result.stockAtLeast);
          expectSound(result, stock);
        },
      ),
      { numRuns: 10 },
    );
  });

  it('take the futtock patterns of a measured hull', () => {
    const hull = buildHull(SCHOONER);
    const sections = Array.from({ length: 10 }, (_, index) => ({
      at: -feet(2) + index * feet(8),
      points: Array.from({ length: 9 }, (_, step) => {
        const angle = (Math.PI / 2) * (step / 8);
        return { height: 3000 - 2600 * Math.cos(angle), breadth: 2600 * Math.sin(angle) };
      }),
    }));
    const [futtock] = futtockPatterns(hull, { surface: 'outside of frames', sections }, [
      { piece: pieceOf(hull, 'frame-12-starboard-futtock-4') },
    ]);
    const rough = stockPatternOf(futtock, inches(0.5));
    expect(areaOf(rough.outline)).toBeGreaterThan(futtock.chord * hull.outline.frames.moulded.head);
    const stock = [crook(2700, 'crook')];
    const result = layUp({ patterns: [rough], stock, seed: 1 });
    expect(result.wanting).toEqual([]);
    expectSound(result, stock);
  });

  it('that find no place make a list to carry, longest first, with the sweep that stock has to give', () => {
    const [long, bent] = wantedList([arc(2200, 35, 190, 'bent'), straight(1800, 150, 'long')]);
    expect([long.name, bent.name]).toEqual(['long', 'bent']);
    expect(long).toMatchObject({ length: 1800, slabWidth: 150, sweep: 0 });
    // Sagitta of 35 degrees at the middle of the piece, 95 mm inside its outer edge.
    const radius = 2200 - 95;
    expect(bent.sweep).toBeCloseTo(radius * (1 - Math.cos((35 / 2) * (Math.PI / 180))), 0);
    expect(bent.sweepAt).toBeCloseTo(0.5, 1);
    expect(bent.slabWidth).toBeGreaterThan(190 + bent.sweep * 0.9);
    expect(long.boardFeet).toBeCloseTo(((110 / 25.4) * (150 / 25.4) * (1800 / 304.8)) / 12, 6);
  });

  it('are refused with an outline that encloses nothing', () => {
    const flat = { ...straight(1000, 100, 'flat'), outline: [{ x: 0, y: 0 }] };
    expect(() => layUp({ patterns: [flat], stock: [], seed: 1 })).toThrow(HullRefusal);
  });
});
