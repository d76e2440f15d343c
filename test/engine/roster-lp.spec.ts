import { assignRoster, pointsOf, type RosterProblem } from '@ribband/engine';
import fc from 'fast-check';
import highsModule from 'highs';

// The package declares its types as CommonJS and loads as a module, whose default is the loader itself.
const loadHighs = highsModule as unknown as (typeof highsModule)['default'];

/**
 * Weekly rosters against linear programmes of HiGHS: as many berths filled as can be, and for the berths that are filled
 * the least points. The programmes share nothing with the engine but the problem.
 */
const weeks: fc.Arbitrary<RosterProblem> = fc
  .record({
    people: fc.integer({ min: 3, max: 14 }),
    berths: fc.integer({ min: 2, max: 16 }),
    seed: fc.nat(1e6),
  })
  .map(({ people, berths, seed }) => {
    let state = seed + 1;
    const upTo = (n: number) => (state = (state * 48271) % 2147483647) % n;
    return {
      people: Array.from({ length: people }, () => ({
        quotas: upTo(3) === 0 ? [{ turnouts: [0, 1, 2], most: 1 + upTo(2) }] : [],
      })),
      berths: Array.from({ length: berths }, () => ({
        turnout: upTo(3),
        rank: 0,
        fixed: null,
        may: Array.from({ length: people }, (_, person) => person)
          .filter(() => upTo(3) > 0)
          .map((person) => ({ person, terms: [{ kind: 'new to it' as const, cost: upTo(40) }] })),
      })),
    };
  });

/** @param filled berths that must be filled, all others staying empty; null for as many as can be */
function programme({ people, berths }: RosterProblem, filled: ReadonlySet<number> | null): string {
  const arcs = berths.flatMap(({ turnout, may }, b) =>
    may.map(({ person, terms }) => ({ b, turnout, person, name: `x${b}_${person}`, cost: pointsOf(terms) })),
  );
  const line = (name: string, of: { name: string }[], bound: string) =>
    of.length > 0 ? [` ${name}: ${of.map((arc) => arc.name).join(' + ')} ${bound}`] : [];
  const bound = (b: number) => (filled === null ? '<= 1' : filled.has(b) ? '= 1' : '= 0');
  return [
    filled === null ? 'Maximize' : 'Minimize',
    ` sum: ${arcs.map(({ cost, name }) => `${filled === null ? 1 : cost} ${name}`).join(' + ')}`,
    'Subject To',
    ...berths.flatMap((_, b) =>
      line(
        `b${b}`,
        arcs.filter((arc) => arc.b === b),
        bound(b),
      ),
    ),
    ...people.flatMap(({ quotas }, p) => [
      ...[0, 1, 2].flatMap((t) =>
        line(
          `p${p}_${t}`,
          arcs.filter((arc) => arc.person === p && arc.turnout === t),
          '<= 1',
        ),
      ),
      ...quotas.flatMap(({ turnouts, most }, q) =>
        line(
          `q${p}_${q}`,
          arcs.filter((arc) => arc.person === p && turnouts.includes(arc.turnout)),
          `<= ${most}`,
        ),
      ),
    ]),
    'Bounds',
    ...arcs.map(({ name }) => ` 0 <= ${name} <= 1`),
    'End',
  ].join('\n');
}

describe('weekly rosters agree with a linear programme', () => {
  it('on how many berths are filled, and on the points', async () => {
    const highs = await loadHighs();
    const optimum = (text: string) => {
      const { Status, ObjectiveValue } = highs.solve(text);
      expect(Status).toBe('Optimal');
      return Math.round(ObjectiveValue);
    };
    fc.assert(
      fc.property(
        weeks.filter(({ berths }) => berths.some(({ may }) => may.length > 0)),
        (week) => {
          const { seated, cost } = assignRoster(week);
          expect(seated.length).toBe(optimum(programme(week, null)));
          expect(cost).toBe(optimum(programme(week, new Set(seated.map(({ berth }) => berth)))));
        },
      ),
      { numRuns: 150 },
    );
  }, 120_000);
});
