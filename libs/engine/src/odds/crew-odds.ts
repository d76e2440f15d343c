import { fillOddsOf } from './fill-odds.js';
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

/**
 * The exact chance that the work of one turnout has its crews: skilled seats filled by those who may fill them, nobody
 * on two seats at once, and no fewer people than each takes.
 * @param of one piece of work, which may then call on who stands in before the others do, or all of them at once
 * @param togetherness how far people come or stay away together, see `togetherOdds`
 */
export function crewOdds(
  works: readonly CrewWanted[],
  people: readonly Asked[],
  of: number | 'all',
  togetherness = 0,
): number {
  const layout = layOut(works);
  const counts = layout.counts.map((count, kind) => (of === 'all' || layout.workOf[kind] === of ? count : 0));
  const able = people
    .map(({ chance, ...person }) => ({ chance, fills: unitsOf(person, layout, of) }))
    .filter(({ fills }) => fills.length > 0);
  return togetherOdds(
    able.map(({ chance }) => chance),
    togetherness,
    fillOddsOf(
      counts,
      able.map(({ fills }) => fills),
    ),
  );
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
function unitsOf(person: Omit<Asked, 'chance'>, layout: Layout, of: number | 'all'): number[][] {
  const kindsOf = ({ work, seats }: CouldFill): number[] => {
    if (of !== 'all' && work !== of) return [];
    const first = layout.first[work];
    const hands = (layout.first[work + 1] ?? layout.counts.length) - 1;
    return [...seats.map((seat) => first + seat), hands];
  };
  return [...person.seated.map(kindsOf), person.standsIn.flatMap(kindsOf)].filter((unit) => unit.length > 0);
}
