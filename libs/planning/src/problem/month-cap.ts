/** What the choice looks at of a person: their cap, and the turnouts at which they could be. */
export interface CappedHand {
  id: string;
  turnoutsAMonth: number | null;
  /** Indices of turnouts, each with whether they are promised there. */
  could: ReadonlyMap<number, boolean>;
  /** Skills at which they are of use. */
  skills: ReadonlySet<string>;
}

/**
 * Of the turnouts at which somebody could be, those that the plan counts on them for, where they have asked for not more
 * than so many a month. Promises are kept first; then the turnouts come at which the fewest others with one of their
 * skills are expected, the sooner of equal ones: two sawyers who come twice a month are not both asked on the same days.
 *
 * One walk over the people, in their order; each choice counts for those who come after.
 * @param months the month of each turnout, 'YYYY-MM'
 * @returns for each person the turnouts that are left
 */
export function withinMonths(
  hands: readonly CappedHand[],
  months: readonly string[],
): ReadonlyMap<string, ReadonlySet<number>> {
  const left = new Map(hands.map((hand) => [hand.id, new Set(hand.could.keys())]));
  const others = (hand: CappedHand, turnout: number): number =>
    hands.filter(
      (other) =>
        other.id !== hand.id && (left.get(other.id)?.has(turnout) ?? false) && isOfUseBeside(hand, other),
    ).length;
  for (const hand of hands) {
    const cap = hand.turnoutsAMonth;
    if (cap === null) continue;
    const kept = new Set<number>();
    for (const month of new Set([...hand.could.keys()].map((turnout) => months[turnout]))) {
      const inMonth = [...hand.could].filter(([turnout]) => months[turnout] === month);
      const ranked = inMonth
        .map(([turnout, isPromised]) => ({ turnout, isPromised, others: others(hand, turnout) }))
        .sort(
          (a, b) =>
            Number(b.isPromised) - Number(a.isPromised) || a.others - b.others || a.turnout - b.turnout,
        );
      const promised = ranked.filter((one) => one.isPromised).length;
      for (const { turnout } of ranked.slice(0, Math.max(cap, promised))) kept.add(turnout);
    }
    left.set(hand.id, kept);
  }
  return left;
}

const isOfUseBeside = (hand: CappedHand, other: CappedHand): boolean =>
  hand.skills.size === 0 || [...hand.skills].some((skill) => other.skills.has(skill));
