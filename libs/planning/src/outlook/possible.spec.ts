import type { ToldPlan } from '../plans/told-plan.js';
import { scopeOf } from './possible.js';

interface Work {
  at: string;
  criticality: number;
  opens?: number[];
  closes?: number[];
  progress?: 'waiting' | 'begun';
  effort?: 'work' | 'hold';
}

function scope(...work: Work[]): number[][] {
  const tasks = work.map(({ opens = [], closes = [], progress = 'waiting', effort = 'work' }) => ({
    ...{ opens, closes, progress: { kind: progress }, effort: { kind: effort } },
  }));
  const forecast = { tasks: work.map(({ criticality }) => ({ criticality })) };
  return scopeOf(
    { problem: { tasks } } as unknown as Pick<ToldPlan, 'problem'>,
    forecast as Parameters<typeof scopeOf>[1],
    (task) => work[task].at,
  );
}

describe('what could be left out of the scope', () => {
  it('is whole pieces of her, those first whose work decides the day oftenest', () => {
    expect(
      scope(
        { at: 'Frame 12', criticality: 0.1, opens: [0] },
        { at: 'Strake 9', criticality: 0.5, opens: [1] },
        { at: 'Frame 12', criticality: 0.2, closes: [0] },
        { at: 'Strake 9', criticality: 0.4, closes: [1] },
      ),
    ).toEqual([
      [1, 3],
      [0, 2],
    ]);
  });

  it('is not work that opens and closes none of them, however often it decides', () => {
    expect(
      scope(
        { at: 'The vessel', criticality: 1 },
        { at: '', criticality: 1, opens: [0] },
        { at: 'Frame 12', criticality: 0.1, opens: [0] },
      ),
    ).toEqual([[2]]);
  });

  it('is not a piece that has been begun, that never decides, or that only waits for a say-so', () => {
    expect(
      scope(
        { at: 'Frame 12', criticality: 1, opens: [0], progress: 'begun' },
        { at: 'Frame 12', criticality: 1, closes: [0] },
        { at: 'Frame 13', criticality: 0, opens: [1] },
        { at: 'Frame 14', criticality: 1, opens: [2], effort: 'hold' },
      ),
    ).toEqual([]);
  });
});
