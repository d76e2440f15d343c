import { network, type Link, type Network, type Relation } from '@ribband/engine';
import { link, problem, task, turnout } from './small-problem.js';

/**
 * The network pass against worked examples from outside. One unit of an example (a week, a day) is 10 minutes of one
 * long turnout. Columns: early start, early finish, late start, late finish, total float, and free float where known.
 */
const UNIT = 10;

interface Example {
  source: string;
  /** Name, duration, those before, expected dates. */
  rows: [string, number, string, number[]][];
  total: number;
  path: string;
}

const examples: Example[] = [
  {
    source:
      'Reliable Construction Co., Hillier and Lieberman, Introduction to Operations Research, ch. 22 (durations from memory; dates recomputed, total 44 as in the book)',
    rows: [
      ['A', 2, '', [0, 2, 0, 2, 0, 0]],
      ['B', 4, 'A', [2, 6, 2, 6, 0, 0]],
      ['C', 10, 'B', [6, 16, 6, 16, 0, 0]],
      ['D', 6, 'C', [16, 22, 20, 26, 4, 0]],
      ['E', 4, 'C', [16, 20, 16, 20, 0, 0]],
      ['F', 5, 'E', [20, 25, 20, 25, 0, 0]],
      ['G', 7, 'D', [22, 29, 26, 33, 4, 0]],
      ['H', 9, 'EG', [29, 38, 33, 42, 4, 0]],
      ['I', 7, 'C', [16, 23, 18, 25, 2, 2]],
      ['J', 8, 'FI', [25, 33, 25, 33, 0, 0]],
      ['K', 4, 'J', [33, 37, 34, 38, 1, 1]],
      ['L', 5, 'J', [33, 38, 33, 38, 0, 0]],
      ['M', 2, 'H', [38, 40, 42, 44, 4, 4]],
      ['N', 6, 'KL', [38, 44, 38, 44, 0, 0]],
    ],
    total: 44,
    path: 'ABCEFJLN',
  },
  {
    source: 'Porta-Vac, Anderson, Sweeney and Williams, ch. 9, table 9.4 and the network on p. 406',
    rows: [
      ['A', 6, '', [0, 6, 0, 6, 0]],
      ['B', 2, '', [0, 2, 7, 9, 7]],
      ['C', 3, 'A', [6, 9, 10, 13, 4]],
      ['D', 5, 'A', [6, 11, 7, 12, 1]],
      ['E', 3, 'A', [6, 9, 6, 9, 0]],
      ['F', 2, 'C', [9, 11, 13, 15, 4]],
      ['G', 3, 'D', [11, 14, 12, 15, 1]],
      ['H', 4, 'BE', [9, 13, 9, 13, 0]],
      ['I', 2, 'H', [13, 15, 13, 15, 0]],
      ['J', 2, 'FGI', [15, 17, 15, 17, 0]],
    ],
    total: 17,
    path: 'AEHIJ',
  },
  {
    source: 'House building, GLPK examples/cpp.mod (A. Makhorin), optimum 46 stated there',
    rows: [
      ['A', 3, '', [0, 3, 0, 3, 0, 0]],
      ['B', 4, 'A', [3, 7, 3, 7, 0, 0]],
      ['C', 3, 'B', [7, 10, 22, 25, 15, 15]],
      ['D', 10, 'B', [7, 17, 7, 17, 0, 0]],
      ['E', 8, 'D', [17, 25, 17, 25, 0, 0]],
      ['F', 4, 'D', [17, 21, 21, 25, 4, 4]],
      ['G', 6, 'D', [17, 23, 19, 25, 2, 2]],
      ['H', 8, 'CEFG', [25, 33, 25, 33, 0, 0]],
      ['I', 5, 'H', [33, 38, 33, 38, 0, 0]],
      ['J', 5, 'H', [33, 38, 35, 40, 2, 0]],
      ['K', 4, 'I', [38, 42, 38, 42, 0, 0]],
      ['L', 2, 'J', [38, 40, 40, 42, 2, 2]],
      ['M', 4, 'KL', [42, 46, 42, 46, 0, 0]],
    ],
    total: 46,
    path: 'ABDEHIKM',
  },
  {
    source:
      'Activities on arcs, Taylor, Introduction to Management Science, ch. 8, first worked solution table',
    rows: [
      ['1-2', 7, '', [0, 7, 2, 9, 2]],
      ['1-3', 10, '', [0, 10, 0, 10, 0]],
      ['2-4', 6, '1-2', [7, 13, 9, 15, 2]],
      ['3-4', 5, '1-3', [10, 15, 10, 15, 0]],
      ['3-5', 4, '1-3', [10, 14, 14, 18, 4]],
      ['4-5', 3, '2-4 3-4', [15, 18, 15, 18, 0]],
      ['5-6', 2, '3-5 4-5', [18, 20, 18, 20, 0]],
    ],
    total: 20,
    path: '1-33-44-55-6',
  },
];

function networkOf(durations: number[], links: Link[], total: number): Network {
  const end = total * UNIT * 2;
  const tasks = durations.map((units, i) => task(`${i}`, units * UNIT));
  const found = network(problem({ turnouts: [turnout(0, end)], tasks, links }));
  if (found.kind === 'circle') throw new Error('circle');
  return found;
}

function datesOf(found: Network, i: number): number[] {
  const { earlyStart, earlyFinish, lateStart, lateFinish, totalFloat, freeFloat } = found;
  return [earlyStart, earlyFinish, lateStart, lateFinish, totalFloat, freeFloat].map(
    (dates) => dates[i] / UNIT,
  );
}

describe('the network pass agrees with worked examples', () => {
  it.each(examples)('$source', ({ rows, total, path }) => {
    const names = rows.map(([name]) => name);
    const links = rows.flatMap(([, , before], i) =>
      before.split(before.includes('-') ? ' ' : '').map((name) => link(names.indexOf(name), i)),
    );
    const found = networkOf(
      rows.map(([, units]) => units),
      links,
      total,
    );
    rows.forEach(([name, , , expected], i) => {
      expect([name, ...datesOf(found, i).slice(0, expected.length)]).toEqual([name, ...expected]);
    });
    expect(found.ready / UNIT).toBe(total);
    expect(found.criticalPath.map((i) => names[i]).join('')).toBe(path);
  });

  const FS: Relation = 'finish-to-start';
  const SS: Relation = 'start-to-start';
  const FF: Relation = 'finish-to-finish';
  const lagged = (before: number, relation: Relation, after: number, units: number) =>
    link(before, after, { relation, lag: units * UNIT });

  it('precedence with lags (constructed; early and late starts from an independent linear programme)', () => {
    const [A, B, C, D, E, F] = [0, 1, 2, 3, 4, 5];
    const links = [
      lagged(A, SS, B, 2),
      lagged(A, FS, C, 1),
      lagged(B, FF, D, 2),
      lagged(C, FS, D, 0),
      lagged(C, SS, E, 3),
      lagged(D, FS, F, -1),
      lagged(E, 'start-to-finish', F, 6),
    ];
    const found = networkOf([4, 6, 5, 3, 4, 2], links, 14);
    const dates = [A, B, C, D, E, F].map((i) => datesOf(found, i).slice(0, 5));
    expect(dates).toEqual([
      [0, 4, 0, 4, 0],
      [2, 8, 5, 11, 3],
      [5, 10, 5, 10, 0],
      [10, 13, 10, 13, 0],
      [8, 12, 8, 12, 0],
      [12, 14, 12, 14, 0],
    ]);
    expect(found.ready / UNIT).toBe(14);
  });

  it('a task that is critical only through its start (a check network worked by hand)', () => {
    const [A, B, C, D, E, F] = [0, 1, 2, 3, 4, 5];
    const links = [
      lagged(A, FS, B, 0),
      lagged(A, SS, C, 2),
      lagged(B, FS, D, 0),
      lagged(C, FF, D, 1),
      lagged(A, FS, F, 0),
      lagged(C, FS, E, 0),
      lagged(D, FS, E, 0),
      lagged(F, FS, E, 0),
    ];
    const found = networkOf([4, 2, 6, 2, 3, 1], links, 12);
    const column = (k: number) => [A, B, C, D, E, F].map((i) => datesOf(found, i)[k]);
    expect(column(0)).toEqual([0, 4, 2, 7, 9, 4]);
    expect(column(1)).toEqual([4, 6, 8, 9, 12, 5]);
    expect(column(2)).toEqual([0, 5, 2, 7, 9, 8]);
    expect(column(4)).toEqual([0, 1, 0, 0, 0, 4]);
    expect(column(5)).toEqual([0, 1, 0, 0, 0, 4]);
    expect(found.criticalPath).toEqual([A, C, D, E]);
    expect(found.ready / UNIT).toBe(12);
  });
});
