/** The standard normal's distribution function (Abramowitz and Stegun 1964, 7.1.26): right to 1.5e-7. */
export function normalBelow(z: number): number {
  const x = Math.abs(z) / Math.SQRT2;
  const t = 1 / (1 + 0.3275911 * x);
  const erf =
    1 -
    t *
      (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429)))) *
      Math.exp(-x * x);
  return z > 0 ? (1 + erf) / 2 : (1 - erf) / 2;
}

export function normalQuantile(p: number): number {
  let low = -8;
  let high = 8;
  for (let k = 0; k < 50; k++) {
    const middle = (low + high) / 2;
    if (normalBelow(middle) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
