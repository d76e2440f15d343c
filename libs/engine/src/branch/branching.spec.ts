import { Random } from '../search/random.js';
import { Branching } from './branching.js';
import type { Rules } from './kernel.js';
import type { Literals } from './trail.js';

/** Two or three stretches, a few small numbers, all kinds of rules, small enough to try every answer. */
function smallRules(seed: number): Rules {
  const random = new Random(seed);
  const whole = (min: number, max: number) => min + random.below(max - min + 1);
  const span = whole(5, 8);
  const rules: Rules = { low: [], high: [], differences: [], pieces: [], resources: [], sums: [], span };
  const variable = (low: number, high: number) => {
    rules.low.push(low);
    rules.high.push(high);
    return rules.low.length - 1;
  };
  const lengths = Array.from({ length: 5 }, () => whole(1, 3));
  const starts = lengths.map((length) => variable(0, span - length));
  const ready = variable(0, span);
  starts.forEach((start, i) => rules.differences.push({ before: start, after: ready, gap: lengths[i] }));
  for (let k = whole(0, 2); k > 0; k--) {
    const [a, b] = [whole(0, starts.length - 2), whole(1, starts.length - 1)];
    if (a < b) rules.differences.push({ before: starts[a], after: starts[b], gap: whole(-2, lengths[a]) });
  }
  if (whole(0, 2) === 0) {
    const order = variable(0, 1);
    rules.differences.push(
      { before: starts[0], after: starts[1], gap: lengths[0], when: { variable: order, is: 1 } },
      { before: starts[1], after: starts[0], gap: lengths[1], when: { variable: order, is: 0 } },
    );
  }
  rules.pieces = starts.map((start, i) => ({ start, length: lengths[i], uses: [] }));
  for (let resource = 0, count = whole(2, 3); resource < count; resource++) {
    const limit = whole(3, 5);
    const taken = Array.from({ length: span }, () => (whole(0, 9) === 0 ? whole(1, limit) : 0));
    rules.resources.push({ limit, taken });
    for (const piece of rules.pieces) {
      const height = whole(1, limit - 1);
      if (whole(0, 3) > 0) piece.uses.push({ resource, height });
    }
  }
  if (whole(0, 2) === 0) {
    // People of two kinds, some of whom each stretch needs.
    const kinds = [0, 1].map(() => {
      const limit = whole(1, 2);
      return { resource: rules.resources.push({ limit, taken: new Array<number>(span).fill(0) }) - 1, limit };
    });
    for (const piece of rules.pieces.slice(0, 2)) {
      const own = kinds.map(({ resource, limit }) => {
        const count = variable(0, limit);
        piece.uses.push({ resource, height: limit, variable: count });
        return count;
      });
      const wanted = whole(1, 2);
      rules.sums.push({ sides: own.map((x) => 2 * x), least: wanted });
      rules.sums.push({ sides: own.map((x) => 2 * x + 1), least: -wanted });
    }
  }
  return rules;
}

const READY = (rules: Rules) => rules.pieces.length;

/** Whether the first `known` values break no rule, whatever the others may be. */
function keeps(
  { differences, pieces, resources, sums, span }: Rules,
  values: number[],
  known: number,
): boolean {
  const valueOf = (side: number) => (side % 2 === 0 ? values[side >> 1] : -values[side >> 1]);
  const ordered = differences.every(
    ({ before, after, gap, when }) =>
      Math.max(before, after, when?.variable ?? 0) >= known ||
      (when && values[when.variable] !== when.is) ||
      values[after] >= values[before] + gap,
  );
  const reached = sums.every(
    ({ sides, least }) =>
      sides.some((side) => side >> 1 >= known) ||
      sides.reduce((sum, side) => sum + valueOf(side), 0) >= least,
  );
  if (!ordered || !reached) return false;
  for (let t = 0; t < span; t++) {
    const running = pieces.filter(
      ({ start, length }) => start < known && t >= values[start] && t < values[start] + length,
    );
    const uses = running.flatMap((piece) => piece.uses);
    const fits = resources.every(({ limit, taken }, r) => {
      let used = 0;
      for (const { resource, height, variable = -1 } of uses) {
        if (resource === r && variable < known) used += variable < 0 ? height : values[variable];
      }
      return used === 0 || used + taken[t] <= limit;
    });
    if (!fits) return false;
  }
  return true;
}

/** Every answer, or null where they are too many for a test. */
function answersOf(rules: Rules): number[][] | null {
  const found: number[][] = [];
  const values: number[] = [];
  let tried = 0;
  const tryAll = (x: number) => {
    if (tried++ > MOST_TRIED || !keeps(rules, values, x)) return;
    if (x === rules.low.length) {
      found.push([...values]);
      return;
    }
    for (let v = rules.low[x]; v <= rules.high[x]; v++) {
      values[x] = v;
      tryAll(x + 1);
    }
  };
  tryAll(0);
  return tried > MOST_TRIED ? null : found;
}

const MOST_TRIED = 6000;

/** Random rules with all their answers. */
function cases(count: number): { rules: Rules; answers: number[][]; seed: number }[] {
  const found: { rules: Rules; answers: number[][]; seed: number }[] = [];
  for (let seed = 1; found.length < count; seed++) {
    const rules = smallRules(seed);
    const answers = answersOf(rules);
    if (answers) found.push({ rules, answers, seed });
  }
  return found;
}

const isTrue = (values: number[], side: number, value: number) =>
  side % 2 === 0 ? values[side >> 1] >= value : -values[side >> 1] >= value;

function pairs({ at, count }: Literals): [number, number][] {
  return Array.from({ length: count }, (_, q): [number, number] => [at[2 * q], at[2 * q + 1]]);
}

/** Looks over a search's shoulder: each reason it gives and each clause it learns must hold in every answer. */
function watched(
  search: Branching,
  answers: number[][],
  limit: () => number,
  ready: number,
): { reasons: number } {
  const seen = { reasons: 0 };
  const { kernel } = search;
  const { trail, clauses } = kernel;
  let living = answers;
  let asOf = Infinity;
  const alive = () => {
    if (limit() !== asOf) living = living.filter((values) => values[ready] <= limit());
    asOf = limit();
    return living;
  };
  const explainEntry = kernel.explainEntry.bind(kernel);
  kernel.explainEntry = (k, value, out) => {
    explainEntry(k, value, out);
    seen.reasons++;
    for (const [side, least] of pairs(out)) {
      expect(trail.bound[side]).toBeGreaterThanOrEqual(least);
      expect(trail.entryOf(side, least)).toBeLessThan(k);
    }
    const counter = alive().find(
      (values) =>
        pairs(out).every(([side, least]) => isTrue(values, side, least)) &&
        !isTrue(values, trail.side[k], value),
    );
    expect(counter).toBeUndefined();
  };
  const explainConflict = kernel.explainConflict.bind(kernel);
  kernel.explainConflict = (out) => {
    explainConflict(out);
    for (const [side, least] of pairs(out)) expect(trail.bound[side]).toBeGreaterThanOrEqual(least);
    expect(
      alive().find((values) => pairs(out).every(([side, least]) => isTrue(values, side, least))),
    ).toBeUndefined();
  };
  const add = clauses.add.bind(clauses);
  clauses.add = (literals, blocks) => {
    const broken = alive().find(
      (values) => !pairs(literals).some(([side, least]) => isTrue(values, side, least)),
    );
    expect(broken).toBeUndefined();
    return add(literals, blocks);
  };
  return seen;
}

describe('The branch search', () => {
  it('finds the best answer there is, gives only true reasons and learns only what is true', () => {
    let reasons = 0;
    let conflicts = 0;
    for (const { rules, answers } of cases(160)) {
      const ready = READY(rules);
      const best = answers.length > 0 ? Math.min(...answers.map((values) => values[ready])) : null;
      const search = searchOf(rules);
      let limit = rules.span;
      const seen = watched(search, answers, () => limit, ready);
      let found: number | null = null;
      for (;;) {
        const ending = search.run(() => false);
        if (ending === 'none') break;
        expect(ending).toBe('found');
        const { bound } = search.kernel.trail;
        const values = rules.low.map((_, x) => bound[2 * x]);
        expect(keeps(rules, values, values.length)).toBe(true);
        expect(found === null || values[ready] < found).toBe(true);
        found = values[ready];
        limit = found - 1;
        search.lean(values);
        if (!search.require(2 * ready + 1, -limit)) break;
      }
      expect(found).toBe(best);
      reasons += seen.reasons;
      conflicts += search.conflicts;
    }
    expect(conflicts).toBeGreaterThan(100);
    expect(reasons).toBeGreaterThan(100);
  }, 120_000);

  it('says what can not be, when it is only supposed, and goes on without it', () => {
    for (const { rules, answers, seed } of cases(60)) {
      const ready = READY(rules);
      const limit = 1 + (seed % rules.span);
      const search = searchOf(rules);
      const supposed = search.run(() => false, { side: 2 * ready + 1, value: -limit });
      expect(supposed === 'found').toBe(answers.some((values) => values[ready] <= limit));
      expect(search.run(() => false) === 'found').toBe(answers.length > 0);
    }
  }, 120_000);
});

/** A search that starts afresh after a few conflicts, so that both ways of choosing are seen. */
function searchOf(rules: Rules): Branching {
  const starts = rules.pieces.map((piece) => piece.start);
  return new Branching(rules, starts, [...rules.low.keys()].slice(starts.length), 2);
}
