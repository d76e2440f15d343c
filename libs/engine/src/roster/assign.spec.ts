import fc from 'fast-check';
import { assignRoster, pointsOf, RosterNet } from './assign.js';
import { termsOf } from './costs.js';
import { MinCostFlow } from './min-cost-flow.js';
import type { Berth, RosterProblem } from './roster-shape.js';

type Quotas = RosterProblem['people'][number]['quotas'];
const people = 4;
const turnouts = 2;

const berths = fc.record({
  turnout: fc.nat(turnouts - 1),
  rank: fc.nat(3),
  may: fc.uniqueArray(
    fc.record({
      person: fc.nat(people - 1),
      terms: fc.array(fc.record({ kind: fc.constant('new to it' as const), cost: fc.nat(9) }), {
        maxLength: 2,
      }),
    }),
    { selector: ({ person }) => person, maxLength: people },
  ),
  fixed: fc.oneof({ weight: 5, arbitrary: fc.constant(null) }, { weight: 1, arbitrary: fc.nat(people - 1) }),
});
const weeks: fc.Arbitrary<RosterProblem> = fc.record({
  people: fc.tuple(
    ...Array.from({ length: people }, () =>
      fc.record({
        quotas: fc.constantFrom<Quotas>([], [{ turnouts: [0, 1], most: 1 }], [{ turnouts: [1], most: 0 }]),
      }),
    ),
  ),
  berths: fc.array(berths, { minLength: 1, maxLength: 6 }),
});

type Holders = (number | null)[];

/** The order in which berths are filled: fixed ones, then by rank, then as they come. */
function orderOf(problem: RosterProblem): number[] {
  const key = (b: number) => (problem.berths[b].fixed === null ? problem.berths[b].rank : -1);
  return problem.berths.map((_, b) => b).sort((a, b) => key(a) - key(b) || a - b);
}

function costOf(berth: Berth, person: number): number {
  return pointsOf(berth.may.find((one) => one.person === person)?.terms ?? []);
}

/** Every roster that there is, one after the other. */
function* everyRoster(
  { people: crew, berths: all }: RosterProblem,
  holders: Holders = [],
): Generator<Holders> {
  const b = holders.length;
  if (b === all.length) {
    yield [...holders];
    return;
  }
  const { turnout, may, fixed } = all[b];
  for (const person of [null, ...(fixed === null ? may.map((one) => one.person) : [fixed])]) {
    const held = (where: number[]) =>
      new Set(
        all.flatMap((one, i) =>
          i < b && holders[i] === person && where.includes(one.turnout) ? [one.turnout] : [],
        ),
      );
    if (person !== null) {
      if (held([turnout]).size > 0) continue;
      if (
        crew[person].quotas.some(
          (quota) => quota.turnouts.includes(turnout) && held(quota.turnouts).size >= quota.most,
        )
      )
        continue;
    }
    yield* everyRoster({ people: crew, berths: all }, [...holders, person]);
  }
}

/** The best by trying everything: berths filled in order first, then cost. */
function best(problem: RosterProblem, allowed: (holders: Holders) => boolean = () => true) {
  const order = orderOf(problem);
  let found: { filled: string; cost: number } | null = null;
  for (const holders of everyRoster(problem)) {
    if (!allowed(holders)) continue;
    const filled = order.map((b) => (holders[b] === null ? 0 : 1)).join('');
    const cost = holders.reduce<number>(
      (sum, person, b) => (person === null ? sum : sum + costOf(problem.berths[b], person)),
      0,
    );
    if (!found || filled > found.filled || (filled === found.filled && cost < found.cost))
      found = { filled, cost };
  }
  if (!found) throw new Error('the empty roster is always one');
  return found;
}

describe('the roster of a week', () => {
  it('is the best of all that there are: berths in their order first, then points', () => {
    fc.assert(
      fc.property(weeks, (week) => {
        const roster = assignRoster(week);
        const wanted = best(week);
        const filled = orderOf(week).map((b) => (roster.seated.some((one) => one.berth === b) ? 1 : 0));
        expect(filled.join('')).toBe(wanted.filled);
        expect(roster.cost).toBe(wanted.cost);
        expect([...roster.unfilled, ...roster.seated.map(({ berth }) => berth)].sort()).toEqual(
          week.berths.map((_, b) => b),
        );
      }),
      { numRuns: 600 },
    );
  });

  it('says of everybody what the next best roster without them there costs more, and who moves', () => {
    fc.assert(
      fc.property(weeks, (week) => {
        const roster = assignRoster(week);
        const wanted = best(week);
        const holderOf = new Map(roster.seated.map(({ berth, person }) => [berth, person]));
        for (const { berth, person, instead } of roster.seated) {
          const without = best(week, (holders) => holders[berth] !== person);
          if (without.filled < wanted.filled) expect(instead).toBeNull();
          else {
            expect(instead?.more).toBe(without.cost - wanted.cost);
            expect(instead?.moves[0].berth).toBe(berth);
            const then = new Map(holderOf);
            for (const move of instead?.moves ?? []) then.set(move.berth, move.person);
            const cost = [...then].reduce((sum, [b, who]) => sum + costOf(week.berths[b], who), 0);
            expect(cost).toBe(without.cost);
          }
        }
      }),
      { numRuns: 300 },
    );
  });

  it('is proved by its potentials: no arc with room in it is cheaper than they say (complementary slackness)', () => {
    fc.assert(
      fc.property(weeks, (week) => {
        const net = new RosterNet(week);
        for (const b of orderOf(week)) net.fill(b);
        for (const arc of net.flow.arcsWithRoom) expect(net.flow.reducedCost(arc)).toBeGreaterThanOrEqual(0);
      }),
    );
  });

  it('gives the optimum 17 of a textbook assignment (Burkard, Dell’Amico and Martello 2009, ch. 4, from memory; tried out in full)', () => {
    const matrix = [
      [7, 9, 8, 9],
      [2, 8, 5, 7],
      [1, 6, 6, 9],
      [3, 6, 2, 2],
    ];
    const week: RosterProblem = {
      people: matrix.map(() => ({ quotas: [] })),
      berths: matrix.map((row, rank) => ({
        turnout: 0,
        rank,
        may: row.map((cost, person) => ({ person, terms: [{ kind: 'new to it', cost }] })),
        fixed: null,
      })),
    };
    expect(assignRoster(week).cost).toBe(17);
    expect(best(week).cost).toBe(17);
  });

  it('keeps the one sawyer for the day on which there is nobody else', () => {
    const may = (...persons: number[]) => persons.map((person) => ({ person, terms: [] }));
    const [anselm, ysolde] = [0, 1];
    const berth = { rank: 0, fixed: null };
    const { seated } = assignRoster({
      people: [{ quotas: [{ turnouts: [0, 1], most: 1 }] }, { quotas: [] }],
      berths: [
        { ...berth, turnout: 0, may: may(anselm, ysolde) },
        { ...berth, turnout: 1, may: may(anselm) },
      ],
    });
    expect(seated.map(({ person }) => person)).toEqual([ysolde, anselm]);
    expect(seated.map(({ instead }) => instead)).toEqual([null, null]);
  });

  it('asks for whole costs of 0 or more', () => {
    expect(() => new MinCostFlow(2).arc(0, 1, 1, -1)).toThrow(RangeError);
    expect(() => new MinCostFlow(2).arc(0, 1, 1, 0.5)).toThrow(RangeError);
    expect(() => new MinCostFlow(2).arc(0, 1, -1, 0)).toThrow(RangeError);
  });
});

describe('the points', () => {
  const plain = {
    othersAsked: false,
    endsLesson: false,
    knowsIt: null,
    dullBefore: 0,
    rarestShared: null,
    levelsOver: 0,
    minutesLost: 0,
    planned: true,
  };
  const of = (change: Partial<typeof plain> | { knowsIt?: boolean; rarestShared?: number }) =>
    pointsOf(termsOf({ ...plain, ...change }));

  it('are none where nothing speaks against somebody', () => {
    expect(termsOf(plain)).toEqual([]);
  });

  it('rise faster with every dull turnout before, and never to those of somebody who was asked', () => {
    const dull = [0, 1, 2, 3, 4, 5].map((dullBefore) => of({ dullBefore }));
    const steps = dull.slice(1).map((cost, i) => cost - dull[i]);
    expect(steps).toEqual([...steps].sort((a, b) => a - b));
    expect(new Set(steps).size).toBe(steps.length);
    expect(of({ dullBefore: 60 })).toBeLessThan(pointsOf(termsOf({ ...plain, othersAsked: true })));
  });

  it('rise with every dull turnout before and fall with everybody who shares the skill', () => {
    expect([0, 1, 2, 6, 60].map((dullBefore) => of({ dullBefore }))).toEqual([0, 5, 11, 35, 35]);
    expect([1, 2, 3].map((rarestShared) => of({ rarestShared }))).toEqual([24, 12, 8]);
    expect(of({ knowsIt: false })).toBeGreaterThan(of({ knowsIt: true }));
  });
});
