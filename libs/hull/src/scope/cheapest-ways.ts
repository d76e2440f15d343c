/**
 * Seeks the cheapest set of things (planks) that meets every need, where a need is met by any one of its ways and a
 * way is a set of things. Exact: branch and bound over the needs, fewest ways first. The bound shares each thing's
 * weight out evenly over the open needs that could use it, so the sum of each need's cheapest way by shares is never
 * more than what is still to pay. Needs that share no thing are searched apart. Cost grows with the product of the
 * ways within one such group; yards have groups of a few dozen needs with two or three ways, most alike.
 *
 * Weights are compared component by component, first difference deciding (fewest planks, then least minutes).
 */
export type Weight = readonly number[];

/** Ways of one need: arrays of indices of things. A need without ways cannot be met. */
export type Ways = number[][];

export const compareWeights = (a: Weight, b: Weight): number => {
  for (let index = 0; index < a.length; index += 1) if (a[index] !== b[index]) return a[index] - b[index];
  return 0;
};

const add = (a: Weight, b: Weight, share = 1): Weight => a.map((part, index) => part + share * b[index]);

/** Indices of the things taken, or null when some need has no way. Things of negative weight are always taken. */
export function cheapestWays(needs: Ways[], weights: Weight[]): number[] | null {
  const zero = weights[0]?.map(() => 0) ?? [];
  const taken = new Set<number>();
  weights.forEach((weight, thing) => {
    if (compareWeights(weight, zero) <= 0) taken.add(thing);
  });
  let open = needs.map((ways) => minimal(ways));
  if (open.some((ways) => ways.length === 0)) return null;
  // What only one way can meet is taken at once; that may leave other needs met or with one way.
  for (;;) {
    open = open.map((ways) => minimal(ways.map((way) => way.filter((thing) => !taken.has(thing)))));
    open = open.filter((ways) => ways.every((way) => way.length > 0));
    const forced = open.filter((ways) => ways.length === 1);
    if (forced.length === 0) break;
    for (const ways of forced) for (const thing of ways[0]) taken.add(thing);
  }
  for (const group of groups(open))
    for (const thing of searchGroup(withoutImplied(group), weights, zero)) taken.add(thing);
  return [...taken].sort((a, b) => a - b);
}

/** Ways that hold no other way. */
function minimal(ways: Ways): Ways {
  const sets = ways.map((way) => new Set(way));
  return ways.filter(
    (way, index) =>
      !sets.some(
        (other, at) =>
          at !== index &&
          other.size <= way.length &&
          (other.size < way.length || at < index) &&
          [...other].every((thing) => sets[index].has(thing)),
      ),
  );
}

const within = (inner: number[], outer: number[]): boolean => inner.every((thing) => outer.includes(thing));

/** Drops needs that are met whenever some other need is. */
const withoutImplied = (needs: Ways[]): Ways[] => {
  const implies = (strong: Ways, weak: Ways): boolean =>
    strong.every((way) => weak.some((other) => within(other, way)));
  return needs.filter(
    (weak, index) =>
      !needs.some(
        (strong, at) => at !== index && implies(strong, weak) && (!implies(weak, strong) || at < index),
      ),
  );
};

function groups(needs: Ways[]): Ways[][] {
  const found: { things: Set<number>; needs: Ways[] }[] = [];
  for (const need of needs) {
    const things = new Set(need.flat());
    const touching = found.filter((group) => [...things].some((thing) => group.things.has(thing)));
    const joined = { things, needs: [need] };
    for (const group of touching) {
      group.things.forEach((thing) => joined.things.add(thing));
      joined.needs.push(...group.needs);
      found.splice(found.indexOf(group), 1);
    }
    found.push(joined);
  }
  return found.map((group) => group.needs);
}

function searchGroup(needs: Ways[], weights: Weight[], zero: Weight): number[] {
  const ordered = [...needs].sort((a, b) => a.length - b.length || b.flat().length - a.flat().length);
  let best: { value: Weight; things: number[] } | null = null;
  const taken = new Set<number>();

  const bound = (value: Weight, open: Ways[]): Weight => {
    const users = new Map<number, number>();
    for (const ways of open)
      for (const thing of new Set(ways.flat())) users.set(thing, (users.get(thing) ?? 0) + 1);
    return open.reduce((sum, ways) => {
      const shares = ways.map((way) =>
        way.reduce(
          (part, thing) => (taken.has(thing) ? part : add(part, weights[thing], 1 / users.get(thing)!)),
          zero,
        ),
      );
      return add(
        sum,
        shares.reduce((least, one) => (compareWeights(one, least) < 0 ? one : least)),
      );
    }, value);
  };

  const branch = (value: Weight): void => {
    const open = ordered.filter((ways) => !ways.some((way) => way.every((thing) => taken.has(thing))));
    // Sums of shares may fall short of a whole by rounding: cut off only what is clearly no better.
    if (best !== null && !clearlyLess(bound(value, open), best.value)) return;
    const next = open.at(0);
    if (next === undefined) {
      if (best === null || compareWeights(value, best.value) < 0) best = { value, things: [...taken] };
      return;
    }
    const choices = next
      .map((way) => {
        const fresh = way.filter((thing) => !taken.has(thing));
        return { fresh, cost: fresh.reduce((sum, thing) => add(sum, weights[thing]), zero) };
      })
      .sort((a, b) => compareWeights(a.cost, b.cost));
    for (const { fresh, cost } of choices) {
      fresh.forEach((thing) => taken.add(thing));
      branch(add(value, cost));
      fresh.forEach((thing) => taken.delete(thing));
    }
  };
  branch(zero);
  return (best as { things: number[] } | null)?.things ?? [];
}

function clearlyLess(bound: Weight, best: Weight): boolean {
  for (let index = 0; index < bound.length; index += 1) {
    if (bound[index] < best[index] - 1e-6) return true;
    if (bound[index] > best[index] + 1e-6) return false;
  }
  return false;
}
