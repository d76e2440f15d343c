import { readOutline, rowsOf, type Outline } from './outline-entries.js';
import { forField } from '../words/lengths.js';

const outline: Outline = {
  frames: {
    count: 44,
    roomAndSpace: 508,
    sided: 114.3,
    moulded: { heel: 228.6, head: 152.4 },
    head: 16,
    floorLayer: 'forward',
    joints: { forward: [4.3, 12.3], aft: [8.3] },
    boltsEachSideOfJoint: 2,
  },
  strakes: {
    count: 19,
    width: 203.2,
    thickness: 60.325,
    bilge: [5, 6],
    butts: {
      port: { first: [8, 5, 9, 4], every: 9, leaveAft: 8 },
      starboard: { first: [4, 8, 5, 9], every: 9, leaveAft: 8 },
    },
  },
  ceiling: { strakes: 14, from: 2, to: 14, thickness: 44.45, nails: 2, buttBays: [3, 11, 19, 27, 35] },
  members: [{ name: 'clamp', at: 15, width: 304.8, boltsAtFrame: 2 }],
  nailing: {},
  exceptions: [
    { strakes: [3, 4], side: 'starboard', nailsAtFrame: 5 },
    { frames: [20, 20], space: 558.8 },
    { strakes: [7, 7], buttBays: [10, 20] },
  ],
};

const inWords = (value: unknown): string =>
  JSON.stringify(value, (_, inner: unknown) =>
    typeof inner === 'number' ? Math.round(inner * 1e6) / 1e6 : inner,
  );

describe('an outline in a form', () => {
  it('comes back as it was, exceptions in words as well', () => {
    const rows = rowsOf(outline, (millimetres) => forField(millimetres, 'IMPERIAL'));
    expect(rows['exceptions'].split('\n')).toEqual([
      'strakes 3-4 starboard nails 5',
      'frames 20-20 space 22',
      'strakes 7-7 butts 10, 20',
    ]);
    expect(inWords(readOutline((name) => rows[name] ?? '', 'IMPERIAL', outline))).toBe(inWords(outline));
  });

  it('what was left out is no number, so that the server names its field', () => {
    const empty = readOutline(() => '', 'IMPERIAL', null);
    expect(empty.frames.count).toBeNaN();
    expect(empty.members).toEqual([]);
  });
});
