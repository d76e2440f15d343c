import type { CostKind, CostTerm } from './roster-shape.js';

/**
 * What speaks against somebody on a berth, in points. The order of size is the order in which coordinators decide: what
 * people were told, then a good crew, then what is fair and what is spared for tomorrow. What somebody would rather not do
 * is no matter of points: they are not asked. Common practice, no source.
 */
export const points = {
  'asked before': 40,
  'ends a lesson': 40,
  'new to it': 12,
  /** For one dull turnout before; each further one weighs a point more than the one before it, up to `mostDull`. */
  'dull again': 5,
  /** For a skill that nobody else has; one that two have weighs half as much, and so on. */
  scarce: 24,
  /** For each level above what is asked. */
  'more than asked': 3,
  /** For each quarter hour that it takes them longer. */
  slower: 2,
  'has not wished': 6,
  'not as planned': 2,
} as const satisfies Record<CostKind, number>;

/** More dull turnouts than these weigh no more: nobody is to be kept from all hand work. */
const mostDull = 5;

/** Rises faster than the turnouts, so that dull work goes round: 5, 11, 18, 26, 35. */
const dullPoints = (turnouts: number): number => {
  const n = Math.min(mostDull, turnouts);
  return n * points['dull again'] + (n * (n - 1)) / 2;
};

/** How somebody stands to a berth. */
export interface Standing {
  /** Whether somebody else has been asked to it and has not answered. */
  othersAsked: boolean;
  /** Whether somebody has said yes to learning there beside another, who is not on it then. */
  endsLesson: boolean;
  /** Whether they were on this work before; null where nobody was. */
  knowsIt: boolean | null;
  /** Dull turnouts that they have had lately, where this is dull; else 0. */
  dullBefore: number;
  /** How many in the crew can do the rarest of their skills that this does not ask for; null where none is rare. */
  rarestShared: number | null;
  /** Levels that they have above what is asked; 0 for a hand. */
  levelsOver: number;
  /** Minutes of work that are missing, since learners count for less. */
  minutesLost: number;
  /** Whether the plan has them there. */
  planned: boolean;
}

/** The points of a standing, those of 0 left out. */
export function termsOf(standing: Standing): CostTerm[] {
  const { rarestShared } = standing;
  const terms: CostTerm[] = [
    { kind: 'asked before', cost: standing.othersAsked ? points['asked before'] : 0 },
    { kind: 'ends a lesson', cost: standing.endsLesson ? points['ends a lesson'] : 0 },
    { kind: 'new to it', cost: standing.knowsIt === false ? points['new to it'] : 0 },
    { kind: 'dull again', cost: dullPoints(standing.dullBefore) },
    { kind: 'scarce', cost: rarestShared === null ? 0 : Math.floor(points.scarce / rarestShared) },
    { kind: 'more than asked', cost: points['more than asked'] * standing.levelsOver },
    { kind: 'slower', cost: points.slower * Math.ceil(standing.minutesLost / 15) },
    { kind: 'not as planned', cost: standing.planned ? 0 : points['not as planned'] },
  ];
  return terms.filter(({ cost }) => cost > 0);
}
