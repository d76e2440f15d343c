import { type Comer, fillOdds } from './fill-odds.js';
import { togetherOdds } from './together.js';

/** What one piece of work asks for at a turnout before it may start. */
export interface CrewWanted {
  /** How many of each of its kinds of skilled seats. */
  seats: readonly number[];
  /** Least people, those on skilled seats counted. */
  least: number;
}

/** Somebody asked to a turnout. */
export interface Asked {
  /** Chance that they come, 0..1. */
  chance: number;
  /** Where they are seated: the work, and which of its kinds of seats they may fill. Two where they change over. */
  seated: readonly CouldFill[];
  /** Where they could stand in for somebody who is missing: one of these at a time. */
  standsIn: readonly CouldFill[];
}

export interface CouldFill {
  work: number;
  seats: readonly number[];
}

export interface TurnoutOdds {
  /** Chance that every piece of work has its crew at once. */
  all: number;
  /** For each piece of work the chance that it has its crew, where it may call on who stands in before the others do. */
  each: number[];
}

/**
 * The exact chances that the work of one turnout has its crews: skilled seats filled by those who may fill them,
 * nobody on two seats at once, and no fewer people than each takes.
 * @param togetherness how far people come or stay away together, see `togetherOdds`
 */
export function crewOdds(
  works: readonly CrewWanted[],
  people: readonly Asked[],
  togetherness = 0,
): TurnoutOdds {
  const layout = layOut(works);
  const odds = (only: number | null) => {
    const counts = layout.counts.map((count, kind) =>
      only === null || layout.workOf[kind] === only ? count : 0,
    );
    const fills = people.map((person) => unitsOf(person, layout, only));
    const able = people.flatMap((_, i) => (fills[i].length > 0 ? [i] : []));
    const chances = able.map((i) => people[i].chance);
    return togetherOdds(chances, togetherness, (given) =>
      fillOdds(
        counts,
        able.map((i, k): Comer => ({ chance: given[k], fills: fills[i] })),
      ),
    );
  };
  return { all: odds(null), each: works.map((_, work) => odds(work)) };
}

interface Layout {
  /** Seats by kind, over all works: each work's skilled kinds, then its plain hands. */
  counts: number[];
  workOf: number[];
  /** The first kind of each work. */
  first: number[];
}

function layOut(works: readonly CrewWanted[]): Layout {
  const layout: Layout = { counts: [], workOf: [], first: [] };
  works.forEach(({ seats, least }, work) => {
    layout.first.push(layout.counts.length);
    const hands = Math.max(0, least - seats.reduce((sum, count) => sum + count, 0));
    for (const count of [...seats, hands]) {
      layout.counts.push(count);
      layout.workOf.push(work);
    }
  });
  return layout;
}

/** The seats that somebody can hold at once: one on each work that they are seated on, one more where they stand in. */
function unitsOf(person: Asked, layout: Layout, only: number | null): number[][] {
  const kindsOf = ({ work, seats }: CouldFill): number[] => {
    if (only !== null && work !== only) return [];
    const first = layout.first[work];
    const hands = (layout.first[work + 1] ?? layout.counts.length) - 1;
    return [...seats.map((seat) => first + seat), hands];
  };
  return [...person.seated.map(kindsOf), person.standsIn.flatMap(kindsOf)].filter((unit) => unit.length > 0);
}
