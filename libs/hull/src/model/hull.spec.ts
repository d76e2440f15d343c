import fc from 'fast-check';
import { inches } from '../measure.js';
import { HullRefusal } from '../refusal.js';
import {
  crossingsOf,
  fasteningsOf,
  fasteningsThrough,
  frameOf,
  framesUnder,
  holesAt,
  pieceOf,
  plankOf,
  planksOver,
} from './ask.js';
import { buildHull } from './build-hull.js';
import { SCHOONER } from './halibut-schooner.fixture.js';
import { type HullOutline } from './outline.js';
import { LAKES_SIDES, NAILS_PER_DOUBLE_FRAME, nailsByWidth, SINGLE_AND_DOUBLE } from './width-rule.js';

const schooner = buildHull(SCHOONER);

const refused = (change: (outline: HullOutline) => void): string => {
  const outline = structuredClone(SCHOONER);
  change(outline);
  try {
    buildHull(outline);
  } catch (fault) {
    if (fault instanceof HullRefusal) return fault.field;
    throw fault;
  }
  return 'taken';
};

describe('a hull entered by counts', () => {
  it('has a frame on each side for every number and every plank of nineteen strakes', () => {
    expect(schooner.frames).toHaveLength(88);
    const strakes = schooner.planks.filter((plank) => plank.skin === 'planking' && plank.side === 'port');
    expect(new Set(strakes.map((plank) => plank.strake)).size).toBe(19);
  });

  it('names the planks over frame 12 starboard, garboard to frame head', () => {
    const over = planksOver(schooner, 12, 'starboard');
    expect(over.map((plank) => plank.strake)).toEqual(Array.from({ length: 16 }, (_, index) => index + 1));
    expect(over[8].name).toBe('strake 9 plank 2 starboard');
    expect([over[8].firstFrame, over[8].lastFrame]).toEqual([5, 13]);
  });

  it('lays the two layers of a frame with their joints shifted', () => {
    const frame = frameOf(schooner, 12, 'starboard');
    expect(
      frame.pieces.map((piece) => `${piece.name}, ${piece.layer}, ${piece.from} to ${piece.to}`),
    ).toEqual([
      'frame 12 starboard floor, forward, 0 to 4.3',
      'frame 12 starboard first futtock, aft, 0 to 8.3',
      'frame 12 starboard second futtock, forward, 4.3 to 12.3',
      'frame 12 starboard third futtock, aft, 8.3 to 16',
      'frame 12 starboard fourth futtock, forward, 12.3 to 16',
    ]);
    expect(frame.joints).toHaveLength(3);
    // Three joints, two bolts on each side of each, and two each through clamp and keelson.
    expect(frame.bolts).toHaveLength(16);
  });

  it('knows which fastenings pass through a futtock', () => {
    const third = pieceOf(schooner, 'frame-12-starboard-futtock-3');
    const through = fasteningsThrough(schooner, third);
    const from = (skin: string): number =>
      through.filter(({ plank }) => plank.skin === skin).reduce((sum, { count }) => sum + count, 0);
    expect(from('planking')).toBe(16); // strakes 9 to 16, two nails each into the after half
    expect(from('ceiling')).toBe(7); // seven ceiling strakes, one nail each
  });

  it('gives every fastening its own hole with its own key', () => {
    const plank = plankOf(schooner, 'strake-9-plank-2-starboard');
    const holes = crossingsOf(schooner, plank).flatMap(holesAt);
    expect(holes).toHaveLength(fasteningsOf(schooner, plank));
    expect(new Set(holes.map((hole) => hole.key)).size).toBe(36);
    expect(holes[0].name).toBe('strake 9 plank 2 starboard, frame 5, forward half, nail 1 from below');
  });

  it('takes exceptions: a stealer, a wider strake, a frame with other joints, an odd space', () => {
    const hull = buildHull({
      ...SCHOONER,
      exceptions: [
        { strakes: [3, 3], side: 'port', over: [10, 20], nailsAtFrame: 2 },
        { strakes: [1, 1], width: inches(9.5) },
        { frames: [20, 20], side: 'port', joints: { forward: [5], aft: [] } },
        { frames: [30, 30], space: inches(26) },
      ],
    });
    expect(planksOver(hull, 9, 'port').some((plank) => plank.strake === 3)).toBe(false);
    expect(fasteningsOf(hull, planksOver(hull, 10, 'port')[2])).toBe(18); // frames 10 to 18, two each
    expect(planksOver(hull, 9, 'starboard')[0].width).toBeCloseTo(inches(9.5));
    expect(frameOf(hull, 20, 'port').pieces).toHaveLength(3);
    expect(frameOf(hull, 20, 'starboard').pieces).toHaveLength(5);
    expect(hull.stations[31] - hull.stations[30]).toBeCloseTo(inches(26));
    expect(hull.unevenSpacing).toBe(true);
  });

  it('refuses an outline that contradicts itself, by field', () => {
    expect(refused((outline) => (outline.frames.count = 1))).toBe('frames.count');
    expect(refused((outline) => (outline.frames.joints.aft = [9, 8]))).toBe('frames.joints.aft[1]');
    expect(refused((outline) => (outline.ceiling.to = 17))).toBe('ceiling.from');
    expect(refused((outline) => (outline.strakes.butts.port.first = []))).toBe('strakes.butts.port.first');
    expect(refused((outline) => (outline.exceptions = [{ strakes: [18, 21] }]))).toBe(
      'exceptions[0].strakes[1]',
    );
  });

  it('takes a hundred frames, and refuses what no wooden vessel has', () => {
    const sized = (frames: number, strakes: number) => (outline: HullOutline) => {
      outline.frames.count = frames;
      outline.strakes.count = strakes;
    };
    expect(refused(sized(100, 24))).toBe('taken');
    expect(refused(sized(400, 19))).toBe('frames.count');
    expect(refused(sized(44, 80))).toBe('strakes.count');
    expect(refused(sized(130, 40))).toBe('strakes.count');
    const [member] = SCHOONER.members;
    const members = (count: number) => (outline: HullOutline) => {
      outline.members = Array.from({ length: count }, () => member);
    };
    expect(refused(members(16))).toBe('taken');
    expect(refused(members(17))).toBe('members');
    const everyBay = (outline: HullOutline) => {
      sized(60, 30)(outline);
      for (const side of ['port', 'starboard'] as const)
        outline.strakes.butts[side] = { first: [1], every: 1, leaveAft: 1 };
    };
    expect(refused(everyBay)).toBe('strakes.butts');
    expect(refused((outline) => (outline.frames.joints.aft = [1, 2, 3, 4, 5, 6, 7, 8, 9]))).toBe(
      'frames.joints.aft',
    );
    expect(refused((outline) => (outline.ceiling.strakes = 60))).toBe('ceiling.strakes');
    expect(refused((outline) => (outline.frames.roomAndSpace = 5080))).toBe('frames.roomAndSpace');
    expect(refused((outline) => (outline.exceptions = [{ frames: [9, 9], space: 1e-9 }]))).toBe(
      'exceptions[0].space',
    );
  });

  it('covers each frame of a strake by one plank and only one, however butts are set', () => {
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 1, max: 43 }), { minLength: 1, maxLength: 6 }),
        fc.integer({ min: 1, max: 20 }),
        fc.integer({ min: 1, max: 20 }),
        (first, every, leaveAft) => {
          const outline = structuredClone(SCHOONER);
          outline.strakes.butts.starboard = { first, every, leaveAft };
          const hull = buildHull(outline);
          for (const frame of [1, 17, 44]) {
            expect(planksOver(hull, frame, 'starboard')).toHaveLength(16);
          }
          const crossed = hull.planks.flatMap((plank) =>
            plank.skin === 'planking' && plank.side === 'starboard' ? framesUnder(hull, plank) : [],
          );
          expect(crossed).toHaveLength(44 * 16);
        },
      ),
      { numRuns: 25 },
    );
  });
});

describe('fastenings by the width of the plank', () => {
  const nails = (width: number, frame = 1): number =>
    nailsByWidth(NAILS_PER_DOUBLE_FRAME, inches(width), frame);

  it('puts four nails to a double frame in planks of 7 to 10 inches, fewer in narrower ones (common practice)', () => {
    expect([7, 8, 9, 10].map((width) => nails(width))).toEqual([4, 4, 4, 4]);
    expect([nails(6.5), nails(4)]).toEqual([3, 2]);
  });

  it('refuses a width of which the rule says nothing', () => {
    expect(() => nails(11)).toThrow(HullRefusal);
  });

  it('puts three spikes and a bolt in the sides of a Lakes vessel at each crossing (Lake Rules 1866)', () => {
    expect([8, 12].map((width) => nailsByWidth(LAKES_SIDES, inches(width), 1))).toEqual([4, 4]);
  });

  it('fastens single and double as Lloyd’s 1891, section 33(4), composite vessels', () => {
    const composite = (width: number, frame: number): number =>
      nailsByWidth(SINGLE_AND_DOUBLE, inches(width), frame);
    expect([composite(10, 1), composite(10, 2), composite(12, 2)]).toEqual([2, 2, 2]);
    expect([composite(9, 1), composite(9, 2), composite(8.5, 2)]).toEqual([2, 1, 1]);
    expect([composite(8.4, 1), composite(8.4, 2)]).toEqual([1, 1]);
  });
});
