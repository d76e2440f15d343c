import { openingTies } from '../link-rows.js';
import type { Problem } from '../problem.js';

/** Links of each task: row i lies between at[i] and at[i + 1]. */
export interface Rows {
  at: Int32Array;
  task: Int32Array;
  /** Bit 0: binds the end of the later task; bit 1: counts from the start of the earlier; bit 2: lag of working minutes. */
  form: Uint8Array;
  lag: Int32Array;
  /** Index of the problem's link, -1 for the tie between an opener and its closer. */
  link: Int32Array;
}

export const Form = { BindsEnd: 1, FromStart: 2, Working: 4 } as const;

export interface Tie {
  before: number;
  after: number;
  form: number;
  lag: number;
  link: number;
}

/** All links, turned round for a mirror, and one from each opener to its closer: nothing is shut before it is opened. */
export function tiesOf(problem: Problem, mirrored: boolean): Tie[] {
  const ties: Tie[] = [];
  [...problem.links, ...openingTies(problem)].forEach(({ before, after, relation, lag, lagKind }, k) => {
    const fromStart = relation === 'start-to-start' || relation === 'start-to-finish';
    const bindsEnd = relation === 'finish-to-finish' || relation === 'start-to-finish';
    // What is done, and the start of what is under way, is bound by nothing any more.
    const { kind } = problem.tasks[after].progress;
    if (kind === 'done' || (kind === 'under way' && !bindsEnd)) return;
    const form = (bindsEnd ? Form.BindsEnd : 0) | (fromStart ? Form.FromStart : 0);
    const link = k < problem.links.length ? k : -1;
    ties.push({ before, after, form: form | (lagKind === 'working' ? Form.Working : 0), lag, link });
  });
  if (!mirrored) return ties;
  return ties.map((tie) => {
    const bindsEnd = tie.form & Form.FromStart ? Form.BindsEnd : 0;
    const fromStart = tie.form & Form.BindsEnd ? Form.FromStart : 0;
    const form = bindsEnd | fromStart | (tie.form & Form.Working);
    return { ...tie, before: tie.after, after: tie.before, form };
  });
}

/** The ties in rows by the task they lead into, or out of. */
export function rows(n: number, ties: Tie[], incoming: boolean): Rows {
  const own = (tie: Tie) => (incoming ? tie.after : tie.before);
  const sorted = ties.map((tie, k) => ({ tie, k })).sort((a, b) => own(a.tie) - own(b.tie) || a.k - b.k);
  const at = new Int32Array(n + 1);
  for (const { tie } of sorted) at[own(tie) + 1]++;
  for (let i = 0; i < n; i++) at[i + 1] += at[i];
  return {
    at,
    task: Int32Array.from(sorted, ({ tie }) => (incoming ? tie.before : tie.after)),
    form: Uint8Array.from(sorted, ({ tie }) => tie.form),
    lag: Int32Array.from(sorted, ({ tie }) => tie.lag),
    link: Int32Array.from(sorted, ({ tie }) => tie.link),
  };
}
