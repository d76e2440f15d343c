import { network, type Link, type Relation } from '@ribband/engine';
import fc from 'fast-check';
import highsModule from 'highs';
import { link, problem, task, turnout } from './small-problem.js';

// The package declares its types as CommonJS and loads as a module, whose default is the loader itself.
const loadHighs = highsModule as unknown as (typeof highsModule)['default'];

/**
 * The network pass against a linear programme: least sum of starts for the early dates, greatest for the late ones,
 * under the same links, on a calendar without breaks. Two ways that share nothing but the problem.
 */
const RELATIONS: Relation[] = ['finish-to-start', 'start-to-start', 'finish-to-finish', 'start-to-finish'];

const networks = fc
  .record({
    durations: fc.array(fc.nat(12), { minLength: 2, maxLength: 14 }),
    links: fc.array(
      fc.record({
        a: fc.nat(13),
        b: fc.nat(13),
        relation: fc.constantFrom(...RELATIONS),
        lag: fc.integer({ min: -9, max: 9 }),
      }),
      { maxLength: 28 },
    ),
  })
  .map(({ durations, links }) => {
    const n = durations.length;
    return {
      durations,
      links: links
        .map(({ a, b, ...rest }) => link(Math.min(a % n, b % n), Math.max(a % n, b % n), rest))
        .filter((one) => one.before !== one.after),
    };
  });

/** One line a link: start of `after` less start of `before` is at least this. */
function gap({ before, after, relation, lag }: Link, durations: number[]): number {
  const fromFinish = relation.startsWith('finish') ? durations[before] : 0;
  const toFinish = relation.endsWith('finish') ? durations[after] : 0;
  return lag + fromFinish - toFinish;
}

function programme(durations: number[], links: Link[], goal: 'Minimize' | 'Maximize', ready: number): string {
  const starts = durations.map((_, i) => `s${i}`);
  const order = links.map((one, k) => ` c${k}: s${one.after} - s${one.before} >= ${gap(one, durations)}`);
  const ends = durations.map((minutes, i) => ` e${i}: s${i} <= ${ready - minutes}`);
  return [goal, ` sum: ${starts.join(' + ')}`, 'Subject To', ...order, ...ends, 'End'].join('\n');
}

describe('the network pass agrees with a linear programme', () => {
  it('on early and late starts and the end, for all four relations and lags either way', async () => {
    const highs = await loadHighs();
    const solve = (text: string) => {
      const { Status, Columns } = highs.solve(text);
      expect(Status).toBe('Optimal');
      return Columns as Record<string, { Primal: number }>;
    };
    fc.assert(
      fc.property(networks, ({ durations, links }) => {
        const tasks = durations.map((minutes, i) => task(`${i}`, minutes));
        const found = network(problem({ turnouts: [turnout(0, 1000)], tasks, links }));
        if (found.kind === 'circle') throw new Error('links only run forward');
        const early = solve(programme(durations, links, 'Minimize', 1000));
        const starts = durations.map((_, i) => Math.round(early[`s${i}`].Primal) + 0);
        expect([...found.earlyStart]).toEqual(starts);
        const ready = Math.max(...starts.map((start, i) => start + durations[i]));
        expect(found.ready).toBe(ready);
        const late = solve(programme(durations, links, 'Maximize', ready));
        expect([...found.lateStart]).toEqual(durations.map((_, i) => Math.round(late[`s${i}`].Primal) + 0));
      }),
      { numRuns: 80 },
    );
  }, 120_000);
});
