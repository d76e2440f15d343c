/** Part of a day at one level. */
export interface Exposure {
  hours: number;
  dba: number;
}

/** The least level that counts: 29 CFR 1910.95(d)(2)(i), from memory. */
const leastCounted = 80;

/** Hours at a level that make the whole dose: T = 8 / 2^((L - 90) / 5). 29 CFR 1910.95 Appendix A. */
export function permittedHours(dba: number): number {
  return 8 / 2 ** ((dba - 90) / 5);
}

/** Dose in per cent of what is permitted: D = 100 sum C / T. 29 CFR 1910.95 Appendix A. */
export function dose(exposures: readonly Exposure[]): number {
  return (
    100 *
    exposures
      .filter(({ dba }) => dba >= leastCounted)
      .reduce((sum, { hours, dba }) => sum + hours / permittedHours(dba), 0)
  );
}

/** The level that would give the same dose in 8 hours: 16.61 log10(D / 100) + 90 dBA. Appendix A. */
export function timeWeightedAverage(dosePercent: number): number {
  return 16.61 * Math.log10(dosePercent / 100) + 90;
}

/**
 * dB that protectors take off dBA: (rating - 7) / 2, never below nothing. 29 CFR 1910.95 Appendix B takes the 7; that
 * only half of the rest is reckoned with is the usual caution, from memory.
 */
export function protection(rating: number): number {
  return Math.max(0, (rating - 7) / 2);
}
