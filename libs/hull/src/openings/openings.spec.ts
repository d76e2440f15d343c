import fc from 'fast-check';
import { SCHOONER } from '../model/halibut-schooner.fixture.js';
import { buildHull } from '../model/build-hull.js';
import { planksOver } from '../model/ask.js';
import { HullRefusal } from '../refusal.js';
import { openingLimits } from './limits.js';
import { brokenBy, waitsBefore } from './may-open.js';
import { missingSupports, prerequisitesOf } from './prerequisites.js';
import { type OpeningSettings } from './settings.js';

const hull = buildHull(SCHOONER);
const frame = (number: number, side = 'starboard'): string => `frame-${number}-${side}`;
const plank = (strake: number, over: number, side: 'port' | 'starboard' = 'starboard'): string =>
  planksOver(hull, over, side).find((one) => one.strake === strake)!.key;

const SIX_WITH_RIBBANDS: OpeningSettings = {
  strakeRun: {
    value: { atMost: 6 },
    ribbandsStand: true,
    by: 'Odalys Brenn',
    reason: 'ribbands and braces stand',
  },
};

describe('frames out at once (common practice)', () => {
  it('lets 12, 15 and 18 be out together', () => {
    expect(brokenBy(hull, [frame(12), frame(15), frame(18)])).toEqual([]);
  });

  it('does not let 12 and 13 be out together', () => {
    expect(brokenBy(hull, [frame(12), frame(13)]).map((limit) => limit.rule)).toContain('neighbourFrames');
  });

  it('says why frame 13 must wait', () => {
    const waits = waitsBefore(hull, frame(13), [frame(12), frame(18)]);
    expect(waits[0].says).toBe('frame 13 must wait: frame 12 is out');
    expect(waits[0].basis).toContain('never two neighbouring frames');
  });

  it('holds frame 14 back while 12 is out, since of three in a row only one may be', () => {
    expect(waitsBefore(hull, frame(14), [frame(12)]).map((wait) => wait.rule)).toEqual(['frameRun']);
  });

  it('looks at one side at a time', () => {
    expect(waitsBefore(hull, frame(13, 'port'), [frame(12)])).toEqual([]);
  });

  it('follows the shipwright’s written number, and refuses one without a reason', () => {
    const change = { by: 'Odalys Brenn', reason: 'inner frames doubled' };
    const settings = { frameRun: { value: { atMost: 2, of: 3 }, ...change } };
    expect(waitsBefore(hull, frame(14), [frame(12)], settings)).toEqual([]);
    expect(() =>
      openingLimits(hull, [], { bothSides: { value: 2, by: 'Odalys Brenn', reason: ' ' } }),
    ).toThrow(HullRefusal);
  });
});

describe('strakes open at once (common practice)', () => {
  const off = [9, 10, 11].map((strake) => plank(strake, 13));

  it('lets three neighbours be open and holds the fourth', () => {
    expect(brokenBy(hull, off)).toEqual([]);
    expect(waitsBefore(hull, plank(12, 13), off)[0].says).toBe(
      'strake 12 plank 2 starboard must wait: strake 9 plank 2 starboard, strake 10 plank 2 starboard and strake 11 plank 2 starboard are open',
    );
  });

  it('lets six be open where ribbands stand and the shipwright wrote it', () => {
    const six = [9, 10, 11, 12, 13, 14].map((strake) => plank(strake, 13));
    expect(brokenBy(hull, six)).not.toEqual([]);
    expect(brokenBy(hull, six, SIX_WITH_RIBBANDS)).toEqual([]);
    const seventh = waitsBefore(hull, plank(15, 13), six, SIX_WITH_RIBBANDS);
    expect(seventh[0].limit.override).toEqual({ by: 'Odalys Brenn', reason: 'ribbands and braces stand' });
  });

  it('takes more than four strakes only where ribbands stand', () => {
    const bare = { strakeRun: { ...SIX_WITH_RIBBANDS.strakeRun!, ribbandsStand: false } };
    expect(() => openingLimits(hull, off, bare)).toThrow('ribbands');
  });

  it('counts planks at a station: open planks at the other end of the vessel do not hold this one', () => {
    expect(waitsBefore(hull, plank(12, 40), off)).toEqual([]);
  });

  it('keeps one side shut while the other is open at the same station', () => {
    expect(waitsBefore(hull, plank(9, 13, 'port'), off).map((wait) => wait.rule)).toContain('bothSides');
    expect(waitsBefore(hull, plank(9, 40, 'port'), off)).toEqual([]);
  });

  it('opens garboard and bilge last or alone', () => {
    expect(waitsBefore(hull, plank(1, 13), [])).toEqual([]);
    expect(waitsBefore(hull, plank(1, 13), off).map((wait) => wait.rule)).toContain('keepClosed');
    expect(waitsBefore(hull, plank(10, 13), [plank(6, 13)]).map((wait) => wait.rule)).toContain('keepClosed');
  });
});

describe('limits for a scheduler', () => {
  it('say the same as the check of what is open now, whatever is open', () => {
    const some = [
      ...[11, 12, 13, 14, 15, 16].map((number) => frame(number)),
      ...[1, 6, 9, 10, 11, 12, 13].map((strake) => plank(strake, 14)),
      plank(10, 14, 'port'),
    ];
    const limits = openingLimits(hull, some);
    fc.assert(
      fc.property(fc.subarray(some), fc.constantFrom(...some), (open, next) => {
        fc.pre(!open.includes(next) && brokenBy(hull, open).length === 0);
        const broken = limits.some(
          (limit) => limit.elements.filter((one) => one === next || open.includes(one)).length > limit.atMost,
        );
        expect(waitsBefore(hull, next, open).length > 0).toBe(broken);
      }),
      { numRuns: 60 },
    );
  });

  it('leave out what cannot bind: each set has more elements than may be open, none lies in another', () => {
    const limits = openingLimits(
      hull,
      [12, 13, 14, 15, 16, 17, 18, 19].map((number) => frame(number)),
    );
    for (const limit of limits) expect(limit.elements.length).toBeGreaterThan(limit.atMost);
    expect(new Set(limits.map((limit) => limit.key)).size).toBe(limits.length);
  });
});

describe('what must stand before an opening (common practice)', () => {
  it('asks for shores at both ends and a brace before a frame is drawn', () => {
    const asked = prerequisitesOf(hull, frame(12), []);
    expect(asked.map((one) => one.kind)).toEqual(['shore', 'shore', 'brace']);
    const standing = [
      { kind: 'shore' as const, side: 'starboard' as const, frames: [11] },
      { kind: 'brace' as const, side: 'starboard' as const, frames: [12] },
    ];
    expect(missingSupports(asked, standing).map((one) => one.says)).toEqual([
      'a shore within 1 frame space of the after end of the opening, starboard, before bolts are cut',
    ]);
  });

  it('asks for ribbands before the fourth neighbouring strake is opened', () => {
    const off = [9, 10, 11].map((strake) => plank(strake, 13));
    expect(prerequisitesOf(hull, off[2], off.slice(0, 2)).some((one) => one.kind === 'ribband')).toBe(false);
    expect(prerequisitesOf(hull, plank(12, 13), off).some((one) => one.kind === 'ribband')).toBe(true);
  });
});
