/**
 * People who come or stay away together: the weather, a shared car, the ferry. One common factor of a turnout (as in
 * Vasicek 1987, from memory): a person comes when sqrt(r) Z + sqrt(1 - r) E lies below the normal quantile of their
 * chance, with Z the turnout's and E their own, both standard normal. Everybody's chance by itself stays what it is;
 * only their togetherness r changes. Given Z they are independent, so the exact odds are an integral over Z.
 */

/**
 * Averages what holds for independent people over the turnout's common factor.
 * @param chances 0..1 each
 * @param togetherness 0 independent, towards 1 all or nobody
 * @param oddsWith exact odds for chances of people who come independently
 */
export function togetherOdds(
  chances: readonly number[],
  togetherness: number,
  oddsWith: (chances: number[]) => number,
): number {
  if (togetherness < 0 || togetherness >= 1)
    throw new RangeError(`Togetherness is 0 up to but not 1, not ${togetherness}`);
  if (togetherness === 0) return oddsWith([...chances]);
  const cuts = chances.map(normalAt);
  const [shared, alone] = [Math.sqrt(togetherness), Math.sqrt(1 - togetherness)];
  const given = (z: number) =>
    oddsWith(
      cuts.map((cut) => (Number.isFinite(cut) ? normalBelow((cut - shared * z) / alone) : Number(cut > 0))),
    );
  // Equal steps sum a function that dies off like this one to machine precision, once they are fine beside the width
  // at which the chances turn (Trefethen and Weideman 2014, from memory).
  const step = Math.min(0.25, alone / shared / 4);
  let sum = 0;
  let weight = 0;
  for (let z = -reach; z <= reach; z += step) {
    const density = Math.exp(-0.5 * z * z);
    sum += density * given(z);
    weight += density;
  }
  return sum / weight;
}

/** Standard deviations looked at to both sides: e^-32 is left beyond. */
const reach = 8;

/** The standard normal's distribution function: its series about 0, its continued fraction in the tails. */
export function normalBelow(z: number): number {
  const x = Math.abs(z);
  const density = Math.exp(-0.5 * x * x) / Math.sqrt(2 * Math.PI);
  if (x > 4) {
    let fraction = x;
    for (let k = 40; k > 0; k--) fraction = x + k / fraction;
    return z > 0 ? 1 - density / fraction : density / fraction;
  }
  let term = z;
  let sum = z;
  for (let k = 1; Math.abs(term) > 1e-17; k++) {
    term *= (z * z) / (2 * k + 1);
    sum += term;
  }
  return 0.5 + sum * density;
}

/** The z below which the standard normal lies with a chance; infinite for 0 and 1. */
export function normalAt(chance: number): number {
  if (chance <= 0) return -Infinity;
  if (chance >= 1) return Infinity;
  let [low, high] = [-40, 40];
  for (let k = 0; k < 70; k++) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < chance) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
