import { solve, type Problem, type Task } from '@ribband/engine';
import fc, { type GeneratorValue } from 'fast-check';
import { without, wishesOf } from '../../libs/engine/src/wishes/without.js';
import { oracle } from './oracle.js';
import { turnout } from './small-problem.js';
import { tinyYard } from './tiny-yard.js';

const MOST_STATES = 1000;
const PATIENCE = 180_000;

/** A sound small yard of which one or two tasks ask for too much. */
function greedyYard(g: GeneratorValue): Problem {
  const yard = tinyYard(g, 4, true);
  const hands = yard.people.length;
  const tools = [{ id: 'jack', name: 'jack', capacity: 1, spans: [] }];
  const clearances = [{ id: 'card', name: 'card' }];
  const asks: ((task: Task) => Task)[] = [
    (task) => ({ ...task, crew: { min: hands + 1, efficient: hands + 1, max: hands + 1 } }),
    (task) => ({
      ...task,
      crew: { min: 1, efficient: 1, max: 1 },
      seats: [{ skill: 0, level: 4, count: 1, clearances: [] }],
    }),
    // The first has the skill, the others the card.
    (task) => ({
      ...task,
      crew: { min: 1, efficient: 1, max: 1 },
      seats: [{ skill: 0, level: 3, count: 1, clearances: [] }],
      clearances: [0],
    }),
    (task) => ({ ...task, tools: [{ tool: 0, count: 2 }] }),
    (task) => ({ ...task, effort: { kind: 'fixed', minutes: 9 }, oneGo: true }),
  ];
  const spoiled = new Map<number, (task: Task) => Task>();
  for (let k = g(fc.integer, { min: 1, max: 2 }); k > 0; k--) {
    const at = g(fc.integer, { min: 0, max: yard.tasks.length - 1 });
    const ask = asks[g(fc.integer, { min: 0, max: asks.length - 1 })];
    // A say-so takes no time, and time that passes by itself no crew.
    spoiled.set(at, (task) => ask({ ...task, effort: { kind: 'fixed', minutes: 2 }, oneGo: true }));
  }
  // So many days more that the horizon is never what stands in the way.
  const days = Array.from({ length: 8 }, (_, k) => turnout(yard.horizon + 10 * k, yard.horizon + 10 * k + 6));
  const stays = days.map(({ start, end }, k) => ({
    turnout: yard.turnouts.length + k,
    from: start,
    to: end,
    showUp: 1,
  }));
  return {
    ...yard,
    turnouts: [...yard.turnouts, ...days],
    horizon: yard.horizon + 80,
    tools,
    clearances,
    people: yard.people.map((one, p) => ({
      ...one,
      stays: [...one.stays, ...stays],
      levels: one.levels.map((level) => (p === 0 ? 3 : Math.min(2, level))),
      clearances: p === 0 ? [] : [{ clearance: 0, until: null }],
    })),
    tasks: yard.tasks.map((one, i) => {
      const seats = one.seats.map((seat) => ({ ...seat, clearances: [] }));
      const sound = { ...one, seats, tools: [], clearances: [] };
      return spoiled.get(i)?.(sound) ?? sound;
    }),
  };
}

/** The sets are held against the oracle, which tries everything and shares nothing with the engine. */
describe('the sets of wishes that can’t all hold', () => {
  it(
    'leave no plan though nothing else be asked for, and any one of a set less leaves one',
    () => {
      let sets = 0;
      let larger = 0;
      fc.assert(
        fc.property(fc.gen(), (g) => {
          const yard = greedyYard(g);
          const outcome = solve(yard, { seed: 1, schedules: 100 });
          if (outcome.kind === 'plan' || !outcome.sets) return;
          const key = (wish: object) => JSON.stringify({ ...wish, have: 0, need: 0, longest: 0 });
          for (const set of outcome.sets) {
            const kept = new Set(set.map((k) => key(outcome.wishes[k])));
            const rest = wishesOf(yard).filter((wish) => !kept.has(key(wish)));
            expect(oracle(without(yard, rest), MOST_STATES).kind).not.toBe('ready');
            for (const wish of wishesOf(yard).filter((one) => kept.has(key(one))))
              expect(oracle(without(yard, [...rest, wish]), MOST_STATES).kind).not.toBe('no plan');
            sets++;
            if (set.length > 1) larger++;
          }
        }),
        { numRuns: 60, endOnFailure: true },
      );
      expect(sets).toBeGreaterThan(20);
      expect(larger).toBeGreaterThan(0);
    },
    PATIENCE,
  );
});
