import fc from 'fast-check';
import { plankOf } from '../model/ask.js';
import { buildHull } from '../model/build-hull.js';
import { SCHOONER } from '../model/halibut-schooner.fixture.js';
import { feet, inches } from '../measure.js';
import { type Butt, buttsOf, checkButts, readingFor } from './butts.js';
import { type LayoutWish, proposeLayout } from './propose-layout.js';
import { checkRefastening, checkReplacement, proposeReplacements } from './replacement.js';
import { checkSisters } from './sisters.js';

const hull = buildHull(SCHOONER);
const stations = hull.stations;
const butt = (strake: number, bay: number, more: Partial<Butt> = {}): Butt => ({
  side: 'starboard',
  strake,
  bay,
  ...more,
});
const rulesBroken = (butts: Butt[], reading: 'frame spaces' | 'feet' | 'both' = 'frame spaces'): string[] =>
  checkButts(butts, { stations, reading }).map((fault) => fault.rule);

describe('butts (TB 55-1900-201-45/1, paragraph 2-13a)', () => {
  it('in neighbouring strakes lie three frame spaces apart: 10 and 12 fail, 10 and 13 pass', () => {
    expect(rulesBroken([butt(5, 10), butt(6, 12)])).toEqual(['neighbourStrakes']);
    expect(rulesBroken([butt(5, 10), butt(6, 13)])).toEqual([]);
  });

  it('in the same bay have three solid strakes between: strakes 5 and 8 fail, 5 and 9 pass', () => {
    expect(rulesBroken([butt(5, 10), butt(8, 10)])).toEqual(['sameBay']);
    expect(rulesBroken([butt(5, 10), butt(9, 10)])).toEqual([]);
  });

  it('say in words what is wrong', () => {
    const [fault] = checkButts([butt(5, 10), butt(6, 12)], { stations, reading: 'frame spaces' });
    expect(fault.says).toBe(
      'strake 5 between frames 10 and 11 and strake 6 between frames 12 and 13: 2 frame spaces apart; butts in neighbouring strakes lie at least 3 frame spaces apart',
    );
  });

  it('do not meet across the sides', () => {
    expect(rulesBroken([butt(5, 10), butt(6, 10, { side: 'port' })])).toEqual([]);
  });
});

describe('butts with unusual frame spacing (TB 55-1900-201-45/1, paragraph 2-13b; Board of Lake Underwriters Rules 1866)', () => {
  // Frames 26 in apart: three spaces are 6 ft 6 in; frames 15 in apart: three spaces are 3 ft 9 in.
  const spaced = (space: number): number[] => [0, ...Array.from({ length: 44 }, (_, i) => i * inches(space))];
  const broken = (space: number, butts: Butt[], reading: 'feet' | 'both'): string[] =>
    checkButts(butts, { stations: spaced(space), reading }).map((fault) => fault.rule);

  it('in neighbouring strakes lie 5 ft apart', () => {
    expect(broken(15, [butt(5, 10), butt(6, 13)], 'feet')).toEqual(['neighbourFeet']);
    expect(broken(15, [butt(5, 10), butt(6, 14)], 'feet')).toEqual([]);
  });

  it('with one solid strake between lie 4 ft apart', () => {
    expect(broken(15, [butt(5, 10), butt(7, 13)], 'feet')).toEqual(['oneBetweenFeet']);
    expect(broken(16, [butt(5, 10), butt(7, 13)], 'feet')).toEqual([]);
  });

  it('read both ways, the stricter reading counts: two wide spaces are 5 ft but not three spaces', () => {
    expect(broken(30, [butt(5, 10), butt(6, 12)], 'feet')).toEqual([]);
    expect(broken(30, [butt(5, 10), butt(6, 12)], 'both')).toEqual(['neighbourStrakes']);
  });

  it('is read only where the spacing is unusual', () => {
    expect(readingFor(hull)).toBe('frame spaces');
    const uneven = { ...SCHOONER, exceptions: [{ frames: [9, 9] as [number, number], space: inches(26) }] };
    expect(readingFor(buildHull(uneven))).toBe('both');
  });
});

describe('more about butts', () => {
  it('stepping in a line over three strakes are shown as a guide (from memory: NVIC 7-95, chapter 5.E)', () => {
    expect(rulesBroken([butt(5, 10), butt(6, 13), butt(7, 16)])).toEqual(['steppingInLine']);
    expect(rulesBroken([butt(5, 10), butt(6, 13), butt(7, 17)])).toEqual([]);
  });

  it('of the garboards are shifted 4 ft 6 in from side to side (Lloyd’s 1891, composite suggestions, section 7)', () => {
    expect(rulesBroken([butt(1, 10), butt(1, 12, { side: 'port' })])).toEqual(['garboards']);
    expect(rulesBroken([butt(1, 10), butt(1, 13, { side: 'port' })])).toEqual([]);
  });

  it('lie between frames, on a frame only where framing is massive (TB 55-1900-201-45/1, paragraph 2-13a)', () => {
    const onFrame = [butt(5, 10, { onFrame: true })];
    expect(rulesBroken(onFrame)).toEqual(['onFrames']);
    expect(checkButts(onFrame, { stations, reading: 'frame spaces', massiveFraming: true })).toEqual([]);
  });

  it('of the garboards lie clear of keel scarfs (Lloyd’s 1891, composite suggestions, section 7)', () => {
    const keelScarfs = [{ from: stations[10], to: stations[13] }];
    const over = (bay: number, strake = 1): string[] =>
      checkButts([butt(strake, bay)], { stations, reading: 'frame spaces', keelScarfs }).map(
        ({ rule }) => rule,
      );
    expect(over(12)).toEqual(['keelScarfs']);
    expect(over(14)).toEqual([]);
    expect(over(12, 2)).toEqual([]);
  });

  it('of the schooner as built keep every rule', () => {
    expect(rulesBroken([...buttsOf(hull, 'starboard'), ...buttsOf(hull, 'port')])).toEqual([]);
  });

  it('are a fault or not whichever is named first', () => {
    const any = fc.record({
      strake: fc.integer({ min: 1, max: 9 }),
      bay: fc.integer({ min: 1, max: 20 }),
      side: fc.constantFrom('port' as const, 'starboard' as const),
    });
    fc.assert(
      fc.property(any, any, (one, other) => {
        expect(rulesBroken([one, other], 'both')).toEqual(rulesBroken([other, one], 'both'));
      }),
    );
  });
});

describe('a proposed plank layout', () => {
  const wish: LayoutWish = {
    side: 'starboard',
    strakes: [9, 10, 11, 12, 13, 14],
    firstFrame: 1,
    lastFrame: 44,
    longest: 12,
    stations,
    reading: 'frame spaces',
    stay: buttsOf(hull, 'starboard').filter(({ strake }) => strake < 9 || strake > 14),
  };

  it('keeps every rule against the butts that stay, with lengths that the stock gives', () => {
    const answer = proposeLayout(wish);
    if (answer.kind !== 'found') throw new Error(answer.kind);
    expect(rulesBroken([...wish.stay, ...answer.butts])).toEqual([]);
    for (const strake of wish.strakes) {
      const ends = [0, ...answer.butts.filter((one) => one.strake === strake).map((one) => one.bay), 44];
      ends.slice(1).forEach((end, index) => {
        expect(end - ends[index]).toBeGreaterThanOrEqual(6);
        expect(end - ends[index]).toBeLessThanOrEqual(12);
      });
    }
  });

  it('is found or ruled out for random stretches, and what is found keeps every rule', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 12, max: 30 }),
        fc.integer({ min: 7, max: 12 }),
        fc.integer({ min: 2, max: 5 }),
        (frames, longest, strakes) => {
          const answer = proposeLayout({
            ...wish,
            strakes: Array.from({ length: strakes }, (_, index) => index + 3),
            lastFrame: frames,
            longest,
            stay: [],
          });
          if (answer.kind !== 'found') return;
          expect(rulesBroken(answer.butts).filter((rule) => rule !== 'steppingInLine')).toEqual([]);
          expect(rulesBroken(answer.butts)).toHaveLength(answer.guideBroken);
        },
      ),
      { numRuns: 30 },
    );
  });

  it('is none where no cut can keep the rules', () => {
    // 12 frames in planks of 6: every strake has its one butt in the same bay.
    expect(proposeLayout({ ...wish, lastFrame: 12, longest: 6, stay: [] }).kind).toBe('none');
  });
});

describe('a replacement plank (TB 55-1900-201-45/1, paragraph 2-12c and d)', () => {
  const plank = plankOf(hull, 'strake-11-plank-5-starboard'); // frames 33 to 44

  it('spans six frame spaces and leaves none of the old plank shorter', () => {
    const whole = checkReplacement(hull, plank, plank.firstFrame, plank.lastFrame);
    expect(whole.faults).toEqual([]);
    expect(whole.newButts).toEqual([]);
    const short = checkReplacement(hull, plank, 33, 37);
    expect(short.faults).toHaveLength(1);
    expect(checkReplacement(hull, plank, 33, 40).faults.map((fault) => fault.says)).toEqual([
      '4 frame spaces of the old plank would be left: a replacement plank spans at least 6 frame spaces, and no piece left of the old one is shorter',
    ]);
  });

  it('is never under 5 ft', () => {
    const close = buildHull({ ...SCHOONER, frames: { ...SCHOONER.frames, roomAndSpace: inches(9) } });
    const check = checkReplacement(close, plankOf(close, 'strake-11-plank-2-starboard'), 6, 11);
    expect(check.spaces).toBe(6);
    expect(check.length).toBeLessThan(feet(5));
    expect(check.faults.map((fault) => fault.rule)).toContain('replacement-plank-floor');
  });

  it('is fastened at least as the old one was (TB 55-1900-201-45/1, paragraph 2-12e and f)', () => {
    expect(checkRefastening({ count: 36, size: 0.375 }, { count: 36, size: 0.375 })).toEqual([]);
    expect(checkRefastening({ count: 36, size: 0.375 }, { count: 34, size: 0.3125 })).toHaveLength(2);
  });

  it('is proposed only with butts that keep the butt rules', () => {
    for (const proposal of proposeReplacements(hull, plank, 34, 36)) {
      expect(proposal.spaces).toBeGreaterThanOrEqual(6);
      expect(proposal.buttFaults).toEqual([]);
      expect(proposal.replacement.firstFrame).toBeLessThanOrEqual(34);
      expect(proposal.replacement.lastFrame).toBeGreaterThanOrEqual(36);
    }
    expect(proposeReplacements(hull, plank, 34, 36).map(({ spaces }) => spaces)).toContain(12);
  });
});

describe('sister frames', () => {
  const wish = {
    frames: [7],
    cause: 'damage' as const,
    pastDamage: [inches(32), inches(32)] as [number, number],
    plankWidth: inches(8),
  };

  it('mend at most two neighbours and never decay (TB 55-1900-201-45/1, paragraph 2-15a and d)', () => {
    expect(checkSisters(wish)).toEqual([]);
    expect(checkSisters({ ...wish, frames: [7, 8, 11] })).toEqual([]);
    expect(checkSisters({ ...wish, frames: [9, 7, 8] }).map((fault) => fault.rule)).toEqual([
      'sister-frames-in-a-row',
    ]);
    expect(checkSisters({ ...wish, cause: 'decay' }).map((fault) => fault.rule)).toEqual([
      'sister-frames-and-decay',
    ]);
  });

  it('reach 18 in or four plank widths past the damage (from memory: NVIC 7-95, chapter 5)', () => {
    expect(checkSisters({ ...wish, pastDamage: [inches(32), inches(31)] })).toHaveLength(1);
    expect(
      checkSisters({ ...wish, plankWidth: inches(4), pastDamage: [inches(18), inches(17.9)] }),
    ).toHaveLength(1);
  });
});
