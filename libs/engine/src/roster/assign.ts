import { MinCostFlow } from './min-cost-flow.js';
import type { Berth, CostTerm, Instead, Roster, RosterProblem, Seated } from './roster-shape.js';

/**
 * The roster of least cost. First as many berths as can be, by rank: a berth is filled wherever that leaves those before
 * it filled (sets of berths that can be filled together are a gammoid, so taking them one after the other is right);
 * then, among the rosters that fill these, one of least cost. Everybody takes one berth a turnout at most.
 *
 *     berth --terms--> (person, turnout) --1--> quota --most--> ashore
 *
 * Exact; the same problem gives the same roster. Costs one shortest path a berth, and one more for its `instead`.
 */
export function assignRoster(problem: RosterProblem): Roster {
  const net = new RosterNet(problem);
  const order = problem.berths
    .map((berth, b) => ({ b, rank: berth.fixed === null ? berth.rank : -Infinity }))
    .sort((one, other) => (one.rank === other.rank ? one.b - other.b : one.rank - other.rank));
  const unfilled = order.flatMap(({ b }) => (net.fill(b) ? [] : [b]));
  const holders = problem.berths.map((_, b) => net.holderOf(b));
  const seated = holders.flatMap((holder, berth): Seated[] =>
    holder === null
      ? []
      : [{ berth, person: holder.person, terms: holder.terms, instead: net.instead(berth, holder) }],
  );
  const cost = seated.reduce((sum, { terms }) => sum + pointsOf(terms), 0);
  return { seated, unfilled, cost };
}

/** Points of some terms together. */
export const pointsOf = (terms: readonly CostTerm[]): number =>
  terms.reduce((sum, term) => sum + term.cost, 0);

interface Holder {
  person: number;
  terms: CostTerm[];
  arc: number;
  node: number;
}

/** The network of a week, with the nodes and arcs kept by what they stand for. */
export class RosterNet {
  readonly flow: MinCostFlow;
  readonly #ashore: number;
  readonly #mayBy: Holder[][];
  /** The berth and person that an arc stands for. */
  readonly #meaning = new Map<number, { berth: number; person: number }>();

  constructor(problem: RosterProblem) {
    const { people, berths } = problem;
    const nodes = new Map<string, number>();
    const node = (key: string) => {
      const known = nodes.get(key) ?? berths.length + nodes.size;
      nodes.set(key, known);
      return known;
    };
    const there = berths.map((berth) =>
      candidatesOf(berth).map(({ person, terms }) => ({
        person,
        terms,
        node: node(`${person} ${berth.turnout}`),
      })),
    );
    const stays = [...nodes].map(([key, at]) => {
      const [person, turnout] = key.split(' ').map(Number);
      const quota = people[person].quotas.findIndex((one) => one.turnouts.includes(turnout));
      return { at, person, quota };
    });
    const quotas = new Map<string, { at: number; most: number }>();
    for (const { person, quota } of stays)
      if (quota >= 0) {
        const key = `${person} of ${quota}`;
        quotas.set(key, { at: node(key), most: people[person].quotas[quota].most });
      }
    this.#ashore = node('ashore');
    this.flow = new MinCostFlow(berths.length + nodes.size);
    this.#mayBy = there.map((candidates, berth) =>
      candidates.map(({ person, terms, node: at }) => {
        const arc = this.flow.arc(berth, at, 1, pointsOf(terms));
        this.#meaning.set(arc, { berth, person });
        return { person, terms, arc, node: at };
      }),
    );
    for (const { at, person, quota } of stays)
      this.flow.arc(at, quotas.get(`${person} of ${quota}`)?.at ?? this.#ashore, 1, 0);
    for (const { at, most } of quotas.values()) this.flow.arc(at, this.#ashore, most, 0);
  }

  fill(berth: number): boolean {
    return this.flow.send(berth, this.#ashore);
  }

  holderOf(berth: number): Holder | null {
    return this.#mayBy[berth].find(({ arc }) => this.flow.flow(arc) > 0) ?? null;
  }

  /** The cheapest way round from a berth back to its holder: what it costs to do without them there. */
  instead(berth: number, holder: Holder): Instead | null {
    const way = this.flow.way(berth, holder.node);
    if (!way) return null;
    return {
      more: way.cost - pointsOf(holder.terms),
      moves: way.arcs.flatMap((arc) => this.#meaning.get(arc) ?? []),
    };
  }
}

function candidatesOf({ may, fixed }: Berth): Berth['may'] {
  if (fixed === null) return may;
  return [may.find(({ person }) => person === fixed) ?? { person: fixed, terms: [] }];
}
