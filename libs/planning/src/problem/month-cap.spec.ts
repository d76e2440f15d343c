import fc from 'fast-check';
import { type CappedHand, withinMonths } from './month-cap.js';

const months = ['2027-03', '2027-03', '2027-03', '2027-03', '2027-04', '2027-04'];
const hand = (id: string, turnoutsAMonth: number | null, over: Partial<CappedHand> = {}): CappedHand => ({
  id,
  turnoutsAMonth,
  could: new Map(months.map((_, turnout) => [turnout, false])),
  skills: new Set(['sawyer']),
  ...over,
});
const chosen = (hands: CappedHand[], id: string) =>
  [...(withinMonths(hands, months).get(id) ?? [])].sort((a, b) => a - b);

describe('Who comes only so often a month', () => {
  it('is counted on for so many turnouts of each month, and the others for all', () => {
    const hands = [hand('anselm', 2), hand('hand', null)];
    expect(chosen(hands, 'anselm')).toEqual([0, 1, 4, 5]);
    expect(chosen(hands, 'hand')).toEqual([0, 1, 2, 3, 4, 5]);
  });

  it('keeps what was promised first, even where it is more than was asked for', () => {
    const promised = (turnouts: number[]) =>
      new Map(months.map((_, t) => [t, turnouts.includes(t)] as const));
    expect(chosen([hand('anselm', 1, { could: promised([3]) })], 'anselm')).toEqual([3, 4]);
    expect(chosen([hand('anselm', 1, { could: promised([1, 3]) })], 'anselm')).toEqual([1, 3, 4]);
  });

  it('two sawyers who come twice a month are not asked on the same days', () => {
    const hands = [hand('anselm', 2), hand('ysolde', 2)];
    const both = [...chosen(hands, 'anselm'), ...chosen(hands, 'ysolde')].filter((turnout) => turnout < 4);
    expect(new Set(both)).toEqual(new Set([0, 1, 2, 3]));
  });

  it('nobody comes more often than they asked for, nor when they could not', () => {
    const people = fc.array(
      fc.record({ cap: fc.option(fc.integer({ min: 1, max: 4 })), could: fc.uniqueArray(fc.nat(5)) }),
      { maxLength: 5 },
    );
    fc.assert(
      fc.property(people, (some) => {
        const hands = some.map(({ cap, could }, i) =>
          hand(`h${i}`, cap, { could: new Map(could.map((turnout) => [turnout, false])) }),
        );
        const left = withinMonths(hands, months);
        for (const one of hands) {
          const kept = [...(left.get(one.id) ?? [])];
          expect(kept.every((turnout) => one.could.has(turnout))).toBe(true);
          for (const month of ['2027-03', '2027-04']) {
            const could = [...one.could.keys()].filter((turnout) => months[turnout] === month).length;
            const comes = kept.filter((turnout) => months[turnout] === month).length;
            expect(comes).toBe(Math.min(could, one.turnoutsAMonth ?? could));
          }
        }
      }),
      { numRuns: 300 },
    );
  });
});
