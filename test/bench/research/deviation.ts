import type { Row } from './measure.js';

/** Means over the rows of one set; null where nothing is there to compare with. */
export interface Deviation {
  set: string;
  files: number;
  /** Shares of 1. */
  overBest: number | null;
  overPath: number | null;
  /** Over the known lower bound. */
  overBound: number | null;
  /** Files on which the best known makespan was met or beaten. */
  met: number | null;
  /** Of the files whose best known makespan is not proved: where it was beaten. */
  openBettered: number | null;
  proved: number;
  /** Between our own bound and our makespan, of the makespan. */
  ownGap: number;
  schedulesASecond: number;
  secondsAFile: number;
}

export function deviations(rows: Row[]): Deviation[] {
  return [...new Set(rows.map(({ set }) => set))].map((set) =>
    deviation(
      set,
      rows.filter((row) => row.set === set),
    ),
  );
}

function deviation(set: string, rows: Row[]): Deviation {
  const told = rows.flatMap(({ known, makespan }) =>
    known ? [{ ...known, best: known.makespan, makespan }] : [],
  );
  const open = told.filter(({ bound, best }) => bound < best);
  const seconds = rows.reduce((sum, row) => sum + row.seconds, 0);
  const schedules = rows.reduce((sum, row) => sum + row.schedules, 0);
  return {
    set,
    files: rows.length,
    overBest: mean(told.map(({ makespan, best }) => makespan / best - 1)),
    overPath: mean(rows.flatMap(({ makespan, path }) => (path > 0 ? [makespan / path - 1] : []))),
    overBound: mean(told.flatMap(({ makespan, bound }) => (bound > 0 ? [makespan / bound - 1] : []))),
    met: mean(told.map(({ makespan, best }) => (makespan <= best ? 1 : 0))),
    openBettered: mean(open.map(({ makespan, best }) => (makespan < best ? 1 : 0))),
    proved: mean(rows.map((row) => (row.proved ? 1 : 0))) ?? 0,
    ownGap: mean(rows.map(({ makespan, lowerBound }) => 1 - lowerBound / Math.max(1, makespan))) ?? 0,
    schedulesASecond: schedules / Math.max(0.001, seconds),
    secondsAFile: seconds / rows.length,
  };
}

export function mean(values: number[]): number | null {
  return values.length === 0 ? null : values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** The table as lines of text, one a set; shares in per cent. */
export function deviationTable(list: Deviation[]): string[] {
  const percent = (share: number | null) => (share === null ? '-' : (100 * share).toFixed(2));
  const columns: [string, (one: Deviation) => string][] = [
    ['files', ({ files }) => String(files)],
    ['% over best', ({ overBest }) => percent(overBest)],
    ['% over path', ({ overPath }) => percent(overPath)],
    ['% over bound', ({ overBound }) => percent(overBound)],
    ['best met %', ({ met }) => percent(met)],
    ['open bettered %', ({ openBettered }) => percent(openBettered)],
    ['proved %', ({ proved }) => percent(proved)],
    ['own gap %', ({ ownGap }) => percent(ownGap)],
    ['schedules/s', ({ schedulesASecond }) => String(Math.round(schedulesASecond))],
    ['s/file', ({ secondsAFile }) => secondsAFile.toFixed(2)],
  ];
  const head = columns.map(([title]) => title);
  return [
    ['set'.padEnd(9), ...head].join('  '),
    ...list.map((one) =>
      [one.set.padEnd(9), ...columns.map(([title, value]) => value(one).padStart(title.length))].join('  '),
    ),
  ];
}
