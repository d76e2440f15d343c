import fc from 'fast-check';
import { type Asked, type CrewWanted, crewOdds } from './crew-odds.js';
import { type Comer, fillOdds, turnoutMasses } from './fill-odds.js';
import { normalAt, normalBelow } from '../normal.js';
import { togetherOdds } from './together.js';

/** The chance of all crews at once, and of each. */
const oddsOf = (works: CrewWanted[], people: Asked[], togetherness = 0) => ({
  all: crewOdds(works, people, 'all', togetherness),
  each: works.map((_, work) => crewOdds(works, people, work, togetherness)),
});

const hand = (chance: number): Comer => ({ chance, fills: [[0]] });
const hands = (many: number, chance: number): Comer[] => Array.from({ length: many }, () => hand(chance));

/** Whether units of people can fill all seats: augmenting paths, written anew for this test. */
function canFill(counts: readonly number[], units: readonly (readonly number[])[]): boolean {
  const seats = counts.flatMap((count, kind) => Array.from({ length: count }, () => kind));
  const heldBy = new Map<number, number>();
  const place = (unit: number, tried: Set<number>): boolean =>
    seats.some((kind, seat) => {
      if (!units[unit].includes(kind) || tried.has(seat)) return false;
      tried.add(seat);
      const other = heldBy.get(seat);
      if (other !== undefined && !place(other, tried)) return false;
      heldBy.set(seat, unit);
      return true;
    });
  units.forEach((_, unit) => place(unit, new Set()));
  return heldBy.size === seats.length;
}

/** Every set of people who may come, one after the other. */
function byEnumeration(counts: readonly number[], comers: readonly Comer[]): number {
  let odds = 0;
  for (let there = 0; there < 1 << comers.length; there++) {
    const chance = comers.reduce(
      (product, comer, i) => product * (there & (1 << i) ? comer.chance : 1 - comer.chance),
      1,
    );
    const units = comers.flatMap((comer, i) => (there & (1 << i) ? comer.fills : []));
    if (canFill(counts, units)) odds += chance;
  }
  return odds;
}

describe('the odds of a crew', () => {
  it('with all alike are those of the binomial distribution (any table of it)', () => {
    const atLeast = (many: number, of: number, chance: number) => fillOdds([many], hands(of, chance));
    expect(atLeast(4, 6, 0.8)).toBeCloseTo(0.90112, 12);
    expect(atLeast(5, 6, 0.8)).toBeCloseTo(0.65536, 12);
    expect(atLeast(6, 6, 0.8)).toBeCloseTo(0.262144, 12);
    expect(atLeast(8, 10, 0.85)).toBeCloseTo(0.820196, 6);
    // Sign-ups that are needed for four to come.
    expect([5, 6, 7, 8].map((of) => Number(atLeast(4, of, 0.8).toFixed(6)))).toEqual([
      0.73728, 0.90112, 0.966656, 0.989594,
    ]);
  });

  it('with each their own chance are those of the Poisson-binomial distribution (worked by hand)', () => {
    const chances = [0.95, 0.9, 0.8, 0.7, 0.6];
    expect(turnoutMasses(chances).map((mass) => Number(mass.toFixed(5)))).toEqual([
      0.00012, 0.0043, 0.0491, 0.2257, 0.4335, 0.28728,
    ]);
    const masses = turnoutMasses(chances);
    const mean = masses.reduce((sum, mass, many) => sum + many * mass, 0);
    expect(mean).toBeCloseTo(3.95, 12);
    expect(masses.reduce((sum, mass, many) => sum + (many - mean) ** 2 * mass, 0)).toBeCloseTo(0.7475, 12);
    expect(fillOdds([3], chances.map(hand))).toBeCloseTo(0.94648, 12);
    expect(fillOdds([4], chances.map(hand))).toBeCloseTo(0.72078, 12);
  });

  it('with a sawyer among three are not those of a sawyer times those of three (worked by hand)', () => {
    const sawyers = [0.9, 0.6].map((chance) => ({ chance, seated: [{ work: 0, seats: [0] }], standsIn: [] }));
    const helpers = [0.8, 0.8, 0.7].map((chance) => ({
      chance,
      seated: [{ work: 0, seats: [] }],
      standsIn: [],
    }));
    const { all, each } = oddsOf([{ seats: [1], least: 3 }], [...sawyers, ...helpers]);
    expect(all).toBeCloseTo(0.8964, 12);
    expect(each).toEqual([all]);
  });

  it('are those of trying out everybody who may or may not come', () => {
    const kinds = 4;
    const unit = fc.subarray([0, 1, 2, 3], { minLength: 1 });
    const comer = fc.record({
      chance: fc.oneof(fc.constantFrom(0, 1), fc.double({ min: 0, max: 1, noNaN: true })),
      fills: fc.array(unit, { minLength: 1, maxLength: 2 }),
    });
    const counts = fc.array(fc.nat({ max: 3 }), { minLength: kinds, maxLength: kinds });
    fc.assert(
      fc.property(counts, fc.array(comer, { maxLength: 9 }), (wanted, comers) => {
        expect(fillOdds(wanted, comers)).toBeCloseTo(byEnumeration(wanted, comers), 10);
      }),
      { numRuns: 400 },
    );
  });

  it('never fall when one more may come, and never rise when one more is wanted', () => {
    const comer = fc.record({
      chance: fc.double({ min: 0, max: 1, noNaN: true }),
      fills: fc.array(fc.subarray([0, 1, 2], { minLength: 1 }), { minLength: 1, maxLength: 1 }),
    });
    const counts = fc.array(fc.nat({ max: 3 }), { minLength: 3, maxLength: 3 });
    fc.assert(
      fc.property(counts, fc.array(comer, { maxLength: 12 }), comer, (wanted, comers, more) => {
        const before = fillOdds(wanted, comers);
        expect(fillOdds(wanted, [...comers, more])).toBeGreaterThanOrEqual(before - 1e-12);
        expect(fillOdds([wanted[0] + 1, wanted[1], wanted[2]], comers)).toBeLessThanOrEqual(before + 1e-12);
      }),
    );
  });

  it('refuse to count more kinds of seats together than can be counted', () => {
    const kinds = Array.from({ length: 13 }, (_, kind) => kind);
    expect(() =>
      fillOdds(
        kinds.map(() => 1),
        [{ chance: 0.5, fills: [kinds] }],
      ),
    ).toThrow(RangeError);
  });
});

describe('one turnout with several pieces of work', () => {
  const seatedOn = (work: number, chance: number, seats: number[] = []) => ({
    chance,
    seated: [{ work, seats }],
    standsIn: [],
  });

  it('has the product of their odds where they share nobody', () => {
    const works = [
      { seats: [1], least: 2 },
      { seats: [], least: 1 },
    ];
    const { all, each } = oddsOf(works, [
      seatedOn(0, 0.9, [0]),
      seatedOn(0, 0.8),
      seatedOn(1, 0.7),
      seatedOn(1, 0.5),
    ]);
    expect(each[0]).toBeCloseTo(0.72, 12);
    expect(each[1]).toBeCloseTo(0.85, 12);
    expect(all).toBeCloseTo(0.72 * 0.85, 12);
  });

  it('has less than the product where one swing hand stands by for both: each alone may call on them first', () => {
    const works = [
      { seats: [], least: 1 },
      { seats: [], least: 1 },
    ];
    const swing = {
      chance: 1,
      seated: [],
      standsIn: [
        { work: 0, seats: [] },
        { work: 1, seats: [] },
      ],
    };
    const { all, each } = oddsOf(works, [seatedOn(0, 0.8), seatedOn(1, 0.8), swing]);
    expect(each).toEqual([1, 1]);
    // Both missing is the only bad case.
    expect(all).toBeCloseTo(1 - 0.2 * 0.2, 12);
  });

  it('has more than the product where the same people change over from one to the other', () => {
    const works = [
      { seats: [], least: 1 },
      { seats: [], least: 1 },
    ];
    const both = {
      chance: 0.8,
      seated: [
        { work: 0, seats: [] },
        { work: 1, seats: [] },
      ],
      standsIn: [],
    };
    expect(oddsOf(works, [both])).toEqual({ all: 0.8, each: [0.8, 0.8] });
  });
});

describe('people who come or stay away together', () => {
  it('keep each their own chance', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.01, max: 0.99, noNaN: true }),
        fc.double({ min: 0, max: 0.9, noNaN: true }),
        (chance, togetherness) => {
          expect(togetherOdds([chance], togetherness, ([given]) => given)).toBeCloseTo(chance, 9);
        },
      ),
    );
  });

  it('lie between independent people and one person counted often', () => {
    // Two at 0.5 each: both come with chance 1/4 + asin(r) / (2 pi) (Sheppard 1899, from memory).
    for (const r of [0.1, 0.3, 0.6, 0.9])
      expect(togetherOdds([0.5, 0.5], r, ([a, b]) => a * b)).toBeCloseTo(
        0.25 + Math.asin(r) / (2 * Math.PI),
        10,
      );
    const crew = Array.from({ length: 6 }, () => ({
      chance: 0.8,
      seated: [{ work: 0, seats: [] }],
      standsIn: [],
    }));
    const odds = [0, 0.2, 0.5].map((r) => crewOdds([{ seats: [], least: 4 }], crew, 'all', r));
    expect(odds[0]).toBeCloseTo(0.90112, 12);
    expect(odds[1]).toBeLessThan(odds[0]);
    expect(odds[2]).toBeLessThan(odds[1]);
    expect(odds[2]).toBeGreaterThan(0.8);
  });

  it('rest on the normal distribution as its tables have it (Abramowitz and Stegun, table 26.1, from memory)', () => {
    expect(normalBelow(1.3416)).toBeCloseTo(0.9101, 4);
    expect(normalBelow(1.959963985)).toBeCloseTo(0.975, 9);
    expect(normalBelow(-5)).toBeCloseTo(2.866516e-7, 12);
    for (const p of [0.001, 0.2, 0.5, 0.85, 0.999]) expect(normalBelow(normalAt(p))).toBeCloseTo(p, 12);
  });

  it('ask for a togetherness that there is', () => {
    expect(() => togetherOdds([0.5], 1, () => 1)).toThrow(RangeError);
  });
});
