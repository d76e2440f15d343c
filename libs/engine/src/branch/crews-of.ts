import { Kind } from '../model/kind.js';
import type { Model } from '../model/model.js';
import { has } from '../model/people.js';
import type { Minute } from '../problem.js';
import type { Rules } from './kernel.js';

/**
 * People who can do the same and are there at the same minutes are of one **kind**. Which of a kind is on which task
 * need not be asked: tasks are spans of time, so there is a way to hand them out as long as at no minute more of the
 * kind are wanted than there are (a colouring of spans takes no more colours than lie over each other).
 *
 * So the variables are: how many of kind k are on task i.
 */
export interface Crews {
  /** Ranks of the people of each kind. */
  kinds: number[][];
  /** By task, pairs of kind and variable. */
  on: [kind: number, variable: number][][];
}

/** Sets of people, over all that tasks ask for, whose load is watched as a whole. */
const MOST_SETS = 48;
/** Kinds of seats of which all sets are made. */
const MOST_SEATS = 10;

/** A seat or further hands: how many, out of which kinds (as bits). */
interface Want {
  able: bigint;
  count: number;
}

/** Adds variables, resources and sums for the people; null where nobody is asked for, or a task for too much. */
export function crewsOf(model: Model, rules: Rules): Crews | 'too many' | null {
  const { need, needs, n } = model;
  if (needs.length === 0) return null;
  const there = presenceBy(model, rules.span);
  const { kinds, takenBy } = kindsOf(model, there);
  const wants = needs.map((_, q) => wantsOf(model, q, kinds));
  const wantOf = (i: number): Want[] => (need[i] < 0 || model.kind[i] === Kind.Mark ? [] : wants[need[i]]);

  if (wants.some((own) => new Set(own.map((want) => want.able)).size > MOST_SEATS)) return 'too many';

  const first = rules.resources.length;
  kinds.forEach((ranks, k) => rules.resources.push({ limit: ranks.length, taken: takenBy[k] }));
  const on = Array.from({ length: n }, (_, i): [number, number][] => {
    const own = wantOf(i);
    const all = own.reduce((sum, want) => sum + want.count, 0);
    const able = own.reduce((set, want) => set | want.able, 0n);
    const pairs: [number, number][] = [];
    kinds.forEach((ranks, k) => {
      if (((able >> BigInt(k)) & 1n) === 0n) return;
      const variable = rules.low.length;
      const height = Math.min(ranks.length, all);
      rules.low.push(0);
      rules.high.push(height);
      rules.pieces[i].uses.push({ resource: first + k, height, variable });
      pairs.push([k, variable]);
    });
    seat(own, all, pairs, rules);
    return pairs;
  });
  watchSets(
    model,
    rules,
    kinds,
    takenBy,
    Array.from({ length: n }, (_, i) => wantOf(i)),
  );
  return { kinds, on };
}

/** Everyone asked for sits: in any set of seats at least as many people fit for them as it has (Hall 1935). */
function seat(wants: Want[], all: number, pairs: [number, number][], rules: Rules): void {
  if (all === 0) return;
  rules.sums.push({ sides: pairs.map(([, x]) => 2 * x + 1), least: -all });
  for (const [able, least] of unions(wants)) {
    rules.sums.push({ sides: pairs.filter(([k]) => holds(able, k)).map(([, x]) => 2 * x), least });
  }
}

/** For sets of people: what can only be done by them takes no more of them than there are. */
function watchSets(
  model: Model,
  rules: Rules,
  kinds: number[][],
  takenBy: Int32Array[],
  wants: Want[][],
): void {
  const distinct = new Map<bigint, Want>();
  for (const want of wants.flat()) distinct.set(want.able, { able: want.able, count: 1 });
  const sets = [...unions([...distinct.values()]).keys()].map((able) => {
    const members = kinds.flatMap((_, k) => (holds(able, k) ? [k] : []));
    const size = members.reduce((sum, k) => sum + kinds[k].length, 0);
    const heights = wants.map((own) =>
      own.reduce((sum, want) => sum + ((want.able | able) === able ? want.count : 0), 0),
    );
    const load = heights.reduce((sum, height, i) => sum + height * model.minutes[i], 0);
    return { able, members, size, heights, load };
  });
  sets.sort((a, b) => b.load / b.size - a.load / a.size || b.size - a.size);
  for (const { members, size, heights } of sets.slice(0, MOST_SETS)) {
    if (heights.filter((height) => height > 0).length < 2) continue;
    const taken = Int32Array.from({ length: rules.span }, (_, t) =>
      members.reduce((sum, k) => sum + takenBy[k][t], 0),
    );
    const resource = rules.resources.length;
    rules.resources.push({ limit: size, taken });
    heights.forEach((height, i) => {
      if (height > 0 && rules.pieces[i].length > 0) rules.pieces[i].uses.push({ resource, height });
    });
  }
}

/** Unions of sets of wants, with how many are wanted out of each union alone; where they are many, of few or all. */
function unions(wants: Want[]): Map<bigint, number> {
  const merged = new Map<bigint, number>();
  for (const { able, count } of wants) merged.set(able, (merged.get(able) ?? 0) + count);
  const list = [...merged.keys()];
  const all = new Set<bigint>(list);
  if (list.length <= MOST_SEATS) for (const one of list) for (const set of [...all]) all.add(set | one);
  else {
    for (const one of list) for (const other of list) all.add(one | other);
    all.add(list.reduce((set, one) => set | one, 0n));
  }
  const found = new Map<bigint, number>();
  for (const union of all) {
    let count = 0;
    for (const [able, wanted] of merged) if ((able | union) === union) count += wanted;
    found.set(union, count);
  }
  return found;
}

function holds(set: bigint, k: number): boolean {
  return ((set >> BigInt(k)) & 1n) === 1n;
}

function wantsOf({ needs }: Model, q: number, kinds: number[][]): Want[] {
  const { seats, hands, lean, seated } = needs[q];
  const set = (able: Int32Array) =>
    kinds.reduce((bits, [rank], k) => (has(able, rank) ? bits | (1n << BigInt(k)) : bits), 0n);
  const wants = seats.map(({ able, count }) => ({ able: set(able), count }));
  return lean > seated ? [...wants, { able: set(hands), count: lean - seated }] : wants;
}

/** People by what they may do and when they are there. */
function kindsOf(model: Model, there: Uint8Array[]): { kinds: number[][]; takenBy: Int32Array[] } {
  const kinds = new Map<string, number[]>();
  for (let rank = 0; rank < model.crowd.count; rank++) {
    const may = model.needs.map(({ hands, seats }) => [
      has(hands, rank),
      ...seats.map(({ able }) => has(able, rank)),
    ]);
    if (!may.flat().includes(true) || !there[rank].includes(1)) continue;
    const key = `${JSON.stringify(may)} ${there[rank].join('')}`;
    kinds.set(key, [...(kinds.get(key) ?? []), rank]);
  }
  const list = [...kinds.values()];
  const takenBy = list.map((ranks) =>
    Int32Array.from(there[ranks[0]], (here) => (here === 1 ? 0 : ranks.length)),
  );
  return { kinds: list, takenBy };
}

/** By rank, minute by minute from now on, whether the person is there. */
function presenceBy({ presence, crowd, now, calendar }: Model, span: number): Uint8Array[] {
  const { first, from, here } = presence;
  return Array.from({ length: crowd.count }, (_, rank) => {
    const row = new Uint8Array(span);
    for (let k = first[0]; k < first[1]; k++) {
      if (!has(here, rank, k * crowd.words)) continue;
      const end: Minute = k + 1 < first[1] ? from[k + 1] : calendar.end[0];
      row.fill(1, Math.max(0, from[k] - now), Math.max(0, Math.min(span, end - now)));
    }
    return row;
  });
}
