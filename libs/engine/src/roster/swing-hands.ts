import { type Asked, crewOdds, type CrewWanted } from '../odds/crew-odds.js';

/**
 * Somebody who comes and could stand by: their chance, where they could stand in, their own work included, and where they
 * are seated as long as they do not stand by. Work of theirs must be able to start without them.
 */
export type Spare = Asked;

/**
 * Who stands by at a turnout: one after the other, each time for the work whose crew is least likely and can still be
 * made likelier, whoever helps it most (of equals whoever helps the others most, then the first), until the odds of
 * every piece of work reach what is wished for or nobody is left who helps. Each step is exact; that it takes the fewest
 * people is not promised.
 * @param wish 0..1
 * @param togetherness as for `crewOdds`
 * @returns indices of `spare`, in the order in which they were asked
 */
export function swingHands(
  works: readonly CrewWanted[],
  seated: readonly Asked[],
  spare: readonly Spare[],
  wish: number,
  togetherness = 0,
): number[] {
  const chosen: number[] = [];
  const known = new Map<string, number>();
  const oddsOf = (work: number, more: readonly number[]) => {
    const key = `${work}: ${[...more].sort((a, b) => a - b).join()}`;
    const found = known.get(key) ?? reckoned(work, more);
    known.set(key, found);
    return found;
  };
  const reckoned = (work: number, more: readonly number[]) => {
    const people = [
      ...seated,
      ...spare.map((one, i) => (more.includes(i) ? { ...one, seated: [] } : { ...one, standsIn: [] })),
    ];
    return crewOdds(works, people, work, togetherness);
  };
  const helps = (i: number, work: number) => spare[i].standsIn.some((could) => could.work === work);
  /** What somebody adds to the other works, as far as these are short. */
  const others = (i: number) =>
    works.reduce(
      (sum, _, work) =>
        sum + (helps(i, work) ? Math.min(oddsOf(work, [...chosen, i]), wish) : Math.min(odds[work], wish)),
      0,
    );
  const bestFor = (work: number): number | null => {
    let best: { i: number; gain: number } | null = null;
    for (let i = 0; i < spare.length; i++) {
      if (chosen.includes(i) || !helps(i, work)) continue;
      const gain = oddsOf(work, [...chosen, i]) - odds[work];
      if (gain <= least) continue;
      const isBetter =
        !best || gain > best.gain + least || (gain > best.gain - least && others(i) > others(best.i) + least);
      if (isBetter) best = { i, gain };
    }
    return best?.i ?? null;
  };
  const odds = works.map((_, work) => oddsOf(work, []));
  for (;;) {
    const short = odds
      .map((each, work) => ({ each, work }))
      .filter(({ each }) => each < wish)
      .sort((a, b) => a.each - b.each || a.work - b.work);
    // One after the other: each is reckoned only where the one before can't be made likelier.
    const i = firstOf(short, ({ work }) => bestFor(work));
    if (i === null) return chosen;
    chosen.push(i);
    for (const work of works.keys()) if (helps(i, work)) odds[work] = oddsOf(work, chosen);
  }
}

function firstOf<T, R>(list: readonly T[], find: (one: T) => R | null): R | null {
  for (const one of list) {
    const found = find(one);
    if (found !== null) return found;
  }
  return null;
}

/** A gain of less is none. */
const least = 1e-9;
