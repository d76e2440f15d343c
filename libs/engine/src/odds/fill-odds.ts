/**
 * The exact chance that people who come independently of each other fill the seats that there are to fill.
 *
 * Who is there decides how many units of people reach each set of seat kinds; by Hall's theorem (1935) all seats are
 * filled exactly where no set asks for more than reach it. So a state is what every set still lacks, people are added
 * one after the other, and states that lack the same are one: a Poisson-binomial sum over matchings. A state that lacks
 * nothing is won, one that the people still to come can't mend is lost, and neither is kept.
 *
 * Cost: at most 2^kinds sets for each of the states, which are few as long as people are of few sorts.
 */

/** Somebody who may come, with what they fill if they do. */
export interface Comer {
  /** 0..1, independent of the others. */
  chance: number;
  /** One entry for each seat that they can hold at once (mostly one): the kinds that it may be of. */
  fills: readonly (readonly number[])[];
}

/** Kinds of seats that hang together, at most: 4,096 sets are looked at for each state. */
const mostKinds = 12;

/**
 * The chance that every seat is filled.
 * @param counts how many seats there are of each kind
 * @throws RangeError where more than 12 kinds of seats hang together through the people who can fill them
 */
export function fillOdds(counts: readonly number[], comers: readonly Comer[]): number {
  return fillOddsOf(
    counts,
    comers.map(({ fills }) => fills),
  )(comers.map(({ chance }) => chance));
}

/**
 * The same for people whose chances are asked again and again.
 * @returns the odds for chances of these people, in their order
 */
export function fillOddsOf(
  counts: readonly number[],
  people: readonly Comer['fills'][],
): (chances: readonly number[]) => number {
  const found = clusters(counts, people);
  return (chances) => found.reduce((odds, cluster) => (odds === 0 ? 0 : odds * cluster.odds(chances)), 1);
}

/** Seats in blocks that no person's choice joins, and the people whose coming they share. */
class Cluster {
  /** What each set of kinds lacks at first. */
  readonly #lacks: Uint8Array;
  /** What each person takes away from what the sets lack: 1 for each set that one of their units reaches. */
  readonly #steps: readonly { person: number; gives: Uint8Array }[];

  constructor({ blocks, people }: Parts, counts: readonly number[]) {
    const sets = blocks.map((kinds) => new Block(kinds, counts));
    this.#lacks = Uint8Array.from(sets.flatMap(({ lacks }) => [...lacks]));
    this.#steps = people
      .map(({ person, fills }) => ({ person, gives: reached(sets, fills) }))
      .filter(({ gives }) => gives.some((give) => give > 0))
      .sort((a, b) => compare(a.gives, b.gives));
  }

  odds(chances: readonly number[]): number {
    const lacks = this.#lacks;
    const steps = this.#steps.filter(({ person }) => chances[person] > 0);
    const toCome = new Uint16Array(lacks.length);
    for (const { gives } of steps) gives.forEach((give, t) => (toCome[t] += give));

    let won = 0;
    let states = new Map([[keyOf(lacks), 1]]);
    if (lacks.every((lack) => lack === 0)) return 1;
    if (lacks.some((lack, t) => lack > toCome[t])) return 0;
    for (const { person, gives } of steps) {
      const chance = chances[person];
      gives.forEach((give, t) => (toCome[t] -= give));
      const next = new Map<string, number>();
      const add = (state: Uint8Array, odds: number): void => {
        if (odds === 0) return;
        let lacking = false;
        for (let t = 0; t < state.length; t++) {
          if (state[t] > toCome[t]) return;
          lacking ||= state[t] > 0;
        }
        if (!lacking) {
          won += odds;
          return;
        }
        const key = keyOf(state);
        next.set(key, (next.get(key) ?? 0) + odds);
      };
      for (const [key, odds] of states) {
        const without = stateOf(key);
        add(
          without.map((lack, t) => Math.max(0, lack - gives[t])),
          odds * chance,
        );
        add(without, odds * (1 - chance));
      }
      states = next;
    }
    return won;
  }
}

/** The sets of kinds of one block, each with what it lacks at first. */
class Block {
  readonly size: number;
  readonly lacks: Uint8Array;

  constructor(
    readonly kinds: number[],
    counts: readonly number[],
  ) {
    if (kinds.length > mostKinds)
      throw new RangeError(`${kinds.length} kinds of seats hang together; at most ${mostKinds} are counted`);
    this.size = (1 << kinds.length) - 1;
    this.lacks = new Uint8Array(this.size);
    for (let set = 1; set <= this.size; set++)
      this.lacks[set - 1] = kinds.reduce((sum, kind, bit) => sum + (set & (1 << bit) ? counts[kind] : 0), 0);
  }

  /** The kinds of this block among some, as bits. */
  bits(kinds: readonly number[]): number {
    return this.kinds.reduce((bits, kind, bit) => (kinds.includes(kind) ? bits | (1 << bit) : bits), 0);
  }
}

function reached(blocks: readonly Block[], fills: Comer['fills']): Uint8Array {
  const gives = new Uint8Array(blocks.reduce((sum, block) => sum + block.size, 0));
  let at = 0;
  for (const block of blocks) {
    for (const unit of fills) {
      const bits = block.bits(unit);
      if (bits === 0) continue;
      for (let set = 1; set <= block.size; set++) if (set & bits) gives[at + set - 1]++;
    }
    at += block.size;
  }
  return gives;
}

/** What belongs together: blocks of kinds, and who fills them. */
interface Parts {
  /** The blocks' kinds, each a list. */
  blocks: number[][];
  people: { person: number; fills: Comer['fills'] }[];
}

/** Parts whose chances multiply: they share neither seats nor people. */
function clusters(counts: readonly number[], people: readonly Comer['fills'][]): Cluster[] {
  const wanted = counts.flatMap((count, kind) => (count > 0 ? [kind] : []));
  const blockOf = joined(counts.length);
  const clusterOf = joined(counts.length);
  const given = people.map((fills, person) => ({
    person,
    fills: fills.map((unit) => unit.filter((kind) => counts[kind] > 0)).filter((unit) => unit.length > 0),
  }));
  for (const { fills } of given) {
    for (const unit of fills) for (const kind of unit) blockOf.join(unit[0], kind);
    for (const unit of fills) for (const kind of unit) clusterOf.join(fills[0][0], kind);
  }
  const found = new Map<number, Parts>();
  for (const kind of wanted) {
    const parts = found.get(clusterOf.root(kind)) ?? { blocks: [], people: [] };
    found.set(clusterOf.root(kind), parts);
    const block = parts.blocks.find(([first]) => blockOf.root(first) === blockOf.root(kind));
    if (block) block.push(kind);
    else parts.blocks.push([kind]);
  }
  for (const one of given)
    if (one.fills.length > 0) found.get(clusterOf.root(one.fills[0][0]))?.people.push(one);
  return [...found.values()].map((parts) => new Cluster(parts, counts));
}

function joined(size: number): { root(one: number): number; join(one: number, other: number): void } {
  const up = Array.from({ length: size }, (_, i) => i);
  const root = (one: number): number => {
    while (up[one] !== one) one = up[one] = up[up[one]];
    return one;
  };
  return { root, join: (one, other) => void (up[root(one)] = root(other)) };
}

const keyOf = (state: Uint8Array): string => String.fromCharCode(...state);
const stateOf = (key: string): Uint8Array => Uint8Array.from(key, (letter) => letter.charCodeAt(0));

function compare(a: Uint8Array, b: Uint8Array): number {
  for (let t = 0; t < a.length; t++) if (a[t] !== b[t]) return b[t] - a[t];
  return 0;
}

/** How likely it is that exactly 0, 1, 2, ... of some people come: the Poisson-binomial distribution. */
export function turnoutMasses(chances: readonly number[]): number[] {
  let masses = [1];
  for (const chance of chances)
    masses = [...masses, 0].map(
      (mass, many) => mass * (1 - chance) + (many > 0 ? masses[many - 1] * chance : 0),
    );
  return masses;
}
