import { EVER } from '../calendar.js';
import { Kind } from '../model/kind.js';
import type { Model } from '../model/model.js';
import { Form } from '../model/ties.js';
import type { Minute } from '../problem.js';
import type { Difference } from './edges.js';
import type { Rules } from './kernel.js';
import { crewsOf, type Crews } from './crews-of.js';
import type { Piece, Resource } from './profiles.js';

/** A problem as variables and rules: task i starts at variable i, counted from `origin`; `ready` is the last end. */
export interface Question {
  rules: Rules;
  origin: Minute;
  ready: number;
  crews: Crews | null;
}

/** More minutes than that, over all tasks, are too many to ask about one by one. */
const MOST_MINUTES = 2_000_000;

/** Whether every rule of the problem is one that the branch search knows: what it proves then holds for the problem. */
export function applies(model: Model): boolean {
  if (!model.dense || model.mirrored || model.n === 0) return false;
  const { calendar, inLinks, now, horizon, begun } = model;
  const wide = calendar.start[0] <= now && calendar.end[0] >= horizon;
  const working = inLinks.form.some((form, q) => (form & Form.Working) !== 0 && inLinks.lag[q] !== 0);
  return (wide || !working) && begun.every((start) => start === EVER);
}

/**
 * @param last the last minute at which everything may be ready; none later is asked about
 * @returns null where that would be too large a question
 */
export function questionOf(model: Model, last: Minute): Question | null {
  const { n, now: origin, calendar, kind, minutes, earliest } = model;
  const span = last - origin;
  if (n * span > MOST_MINUTES) return null;
  const rules: Rules = { low: [], high: [], differences: [], pieces: [], resources: [], sums: [], span };
  for (let i = 0; i < n; i++) {
    const block = kind[i] === Kind.Block;
    rules.low.push(Math.max(earliest[i], block ? calendar.start[0] : origin) - origin);
    rules.high.push(Math.min(last, block ? calendar.end[0] : last) - minutes[i] - origin);
  }
  const ready = n;
  rules.low.push(0);
  rules.high.push(span);
  rules.differences.push(...linksOf(model));
  for (let i = 0; i < n; i++) rules.differences.push({ before: i, after: ready, gap: minutes[i] });
  rules.resources = toolsOf(model, span);
  rules.pieces = piecesOf(model);
  const crews = crewsOf(model, rules);
  if (crews === 'too many' || rules.resources.length * span > MOST_MINUTES) return null;
  return { rules, origin, ready, crews };
}

function linksOf({ n, inLinks, minutes }: Model): Difference[] {
  const differences: Difference[] = [];
  for (let after = 0; after < n; after++) {
    for (let q = inLinks.at[after]; q < inLinks.at[after + 1]; q++) {
      const before = inLinks.task[q];
      const form = inLinks.form[q];
      let gap = inLinks.lag[q];
      if ((form & Form.FromStart) === 0) gap += minutes[before];
      if ((form & Form.BindsEnd) !== 0) gap -= minutes[after];
      differences.push({ before, after, gap });
    }
  }
  return differences;
}

function toolsOf({ tools, now }: Model, span: number): Resource[] {
  return tools.map(({ at, free }) => {
    const limit = Math.max(...free);
    const taken = new Int32Array(span);
    at.forEach((from, k) => {
      const a = Math.max(0, from - now);
      const b = k + 1 < at.length ? at[k + 1] - now : span;
      if (a < b) taken.fill(limit - free[k], a, Math.min(b, span));
    });
    return { limit, taken };
  });
}

function piecesOf({ n, minutes, toolAt, toolPairs }: Model): Piece[] {
  return Array.from({ length: n }, (_, i) => {
    const uses = [];
    for (let q = toolAt[i]; q < toolAt[i + 1] && minutes[i] > 0; q += 2) {
      uses.push({ resource: toolPairs[q], height: toolPairs[q + 1] });
    }
    return { start: i, length: minutes[i], uses };
  });
}
