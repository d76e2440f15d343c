import fc from 'fast-check';
import { inches, toInches } from '../measure.js';
import { frameOf, pieceOf } from '../model/ask.js';
import { buildHull } from '../model/build-hull.js';
import { SCHOONER } from '../model/halibut-schooner.fixture.js';
import { girthAt, heightAt, mouldedAt } from './girth.js';
import { checkJointShift } from './joint-shift.js';
import { partingsOf } from './new-joint.js';
import { HullRefusal } from '../refusal.js';
import { scarfAt, scarfLength } from './scarfs.js';

const hull = buildHull(SCHOONER);
const withJoints = (joints: { forward: number[]; aft: number[] }): ReturnType<typeof buildHull> =>
  buildHull({ ...SCHOONER, frames: { ...SCHOONER.frames, joints } });

describe('joints of a double-sawn frame (common practice)', () => {
  it('of the schooner as built are shifted by a third of the futtock that runs past', () => {
    expect(checkJointShift(hull, frameOf(hull, 12, 'starboard'))).toEqual([]);
    expect(checkJointShift(hull, frameOf(hull, 12, 'starboard'), 'moulded depth')).toEqual([]);
  });

  it('too near each other are named with what is wanted', () => {
    const near = withJoints({ forward: [4.3, 12.3], aft: [10.3] });
    const faults = checkJointShift(near, frameOf(near, 12, 'starboard'));
    // The joint at 10.3 is two strakes (16 in) from 12.3; the futtock past it is 8 strakes (64 in) long.
    expect(
      faults.map((fault) => [fault.at, Math.round(toInches(fault.shift)), toInches(fault.least).toFixed(1)]),
    ).toEqual([[10.3, 16, '21.3']]);
  });

  it('read by depth ask for three times the moulded depth', () => {
    const near = withJoints({ forward: [4.3, 12.3], aft: [10] });
    const [fault] = checkJointShift(near, frameOf(near, 12, 'starboard'), 'moulded depth');
    // 9 in at the heel to 6 in at the head: 7 1/8 in at the joint at 10.
    expect(toInches(fault.least)).toBeCloseTo(3 * 7.125);
  });
});

describe('where a decayed futtock is parted', () => {
  const third = pieceOf(hull, 'frame-12-starboard-futtock-3'); // after layer, 8.3 to the head at 16
  const first = pieceOf(hull, 'frame-12-starboard-futtock-1'); // after layer, rabbet to 8.3

  it('at the original joint where that is within reach', () => {
    const { lower, upper } = partingsOf(hull, third, { from: 10.5, to: 16 });
    expect(lower.kind === 'original joint' && lower.joint.key).toBe(
      'frame-12-starboard-futtock-3-heel-joint',
    );
    expect(upper.kind).toBe('end of the frame');
  });

  it('whole where every cut would spoil the shift of joints, even with the joint out of reach', () => {
    // Decay from 14: the cut would lie between the joint at 12.3 (in the other layer) and the head.
    const { lower } = partingsOf(hull, third, { from: 12.5, to: 16 }, { reach: 0 });
    expect(lower.kind).toBe('whole piece');
  });

  it('by a new cut, recorded as a departure, where it keeps the shift and leaves enough', () => {
    const long = withJoints({ forward: [4.3], aft: [] });
    const piece = pieceOf(long, 'frame-12-starboard-futtock-2'); // 4.3 to 16, with no joint beside it
    const { lower } = partingsOf(long, piece, { from: 13, to: 16 });
    if (lower.kind !== 'new joint') throw new Error(lower.kind);
    expect(lower.girth).toBeCloseTo(girthAt(long, 'starboard', 13) - inches(6));
    expect(lower.departure).toBe(
      'new joint in frame 12 starboard second futtock, 98 in along the frame from the rabbet; 64 in of the old piece stay',
    );
  });

  it('upwards too: decay at the heel leaves the sound head standing', () => {
    const { lower, upper } = partingsOf(hull, first, { from: 0, to: 2 });
    expect(lower.kind).toBe('end of the frame');
    expect(['new joint', 'whole piece']).toContain(upper.kind);
  });

  it('keeps the shift of every joint of the frame after any cut it proposes', () => {
    const heights = fc.tuple(
      fc.double({ min: 3, max: 7, noNaN: true }),
      fc.double({ min: 9, max: 14, noNaN: true }),
      fc.double({ min: 6, max: 12, noNaN: true }),
      fc.double({ min: 0.5, max: 15.5, noNaN: true }),
      fc.constantFrom('third of the futtock' as const, 'moulded depth' as const),
    );
    let cuts = 0;
    fc.assert(
      fc.property(heights, ([low, high, aft, decay, reading]) => {
        const random = withJoints({ forward: [low, high], aft: [aft] });
        const frame = frameOf(random, 12, 'starboard');
        fc.pre(checkJointShift(random, frame, reading).length === 0);
        for (const piece of frame.pieces.filter((one) => one.from < decay && decay < one.to)) {
          const { lower } = partingsOf(random, piece, { from: decay, to: 16 }, { reach: 0, reading });
          if (lower.kind !== 'new joint') continue;
          cuts += 1;
          const layer = [...random.outline.frames.joints[piece.layer], lower.at].sort((a, b) => a - b);
          const after = withJoints({ ...random.outline.frames.joints, [piece.layer]: layer });
          const faults = checkJointShift(after, frameOf(after, 12, 'starboard'), reading);
          expect(faults).toEqual([]);
          expect(lower.at).toBeLessThan(decay);
          expect(lower.remaining).toBeGreaterThanOrEqual(4 * mouldedAt(frame, decay) - 1e-6);
        }
      }),
      { numRuns: 40 },
    );
    expect(cuts).toBeGreaterThan(0);
  });
});

describe('heights and lengths', () => {
  it('along the frame are the reverse of each other', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 19, noNaN: true }), (height) => {
        expect(heightAt(hull, 'port', girthAt(hull, 'port', height))).toBeCloseTo(height, 6);
      }),
    );
  });
});

describe('scarfs (from memory: NVIC 7-95, chapter 5.F, and usual rules)', () => {
  const [longest] = [...frameOf(hull, 12, 'starboard').pieces].sort(
    (a, b) => b.to - b.from - (a.to - a.from),
  );

  it('are 8 to 1 glued, 12 to 1 highly loaded, six depths bolted', () => {
    expect(toInches(scarfLength('glued', inches(2)))).toBeCloseTo(16);
    expect(toInches(scarfLength('glued, highly loaded', inches(2)))).toBeCloseTo(24);
    expect(toInches(scarfLength('bolted, keel type', inches(10)))).toBeCloseTo(60);
  });

  it('reach so far into the wood that stays, on either side of the cut', () => {
    const piece = longest;
    for (const part of ['above', 'below'] as const) {
      const at = part === 'above' ? piece.to - 0.5 : piece.from + 0.5;
      const scarf = scarfAt(hull, piece, { at, part, kind: 'bolted, keel type' });
      const depth = mouldedAt(frameOf(hull, 12, 'starboard'), at);
      const reach = girthAt(hull, 'starboard', at) - girthAt(hull, 'starboard', scarf.toe);
      expect(Math.abs(reach)).toBeCloseTo(6 * depth, 6);
      expect(Math.sign(reach)).toBe(part === 'above' ? 1 : -1);
      expect(scarf.remaining).toBeGreaterThanOrEqual(4 * depth);
    }
  });

  it('are refused where too little of the old piece would be left beyond them', () => {
    const piece = longest;
    expect(() => scarfAt(hull, piece, { at: piece.from + 0.5, part: 'above', kind: 'glued' })).toThrow(
      HullRefusal,
    );
  });
});
