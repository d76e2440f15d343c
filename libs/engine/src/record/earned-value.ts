/**
 * Earned value in the terms of EIA-748 (from memory): what was planned to be done by now, what is done, and what it
 * took. Everything in one unit; the yard's is person-minutes of the baseline's estimate.
 */
export interface EarnedSums {
  /** Everything that the baseline wants done: budget at completion. */
  budget: number;
  /** What the baseline wanted done by now: planned value. */
  planned: number;
  /** What is done of it, at the baseline's estimate: earned value. */
  earned: number;
  /** What it took: actual cost. */
  actual: number;
}

/** A figure is null where it would be divided by nothing. */
export interface EarnedFigures {
  /** Earned less planned; below 0 is behind. */
  scheduleVariance: number;
  /** Earned less actual; below 0 took more than was thought. */
  costVariance: number;
  /** Schedule performance index: earned over planned. It drifts to 1 at the end, however late that is. */
  spi: number | null;
  /** Cost performance index: earned over actual. */
  cpi: number | null;
  /** What everything will have taken at this pace: budget over cost index. */
  estimateAtCompletion: number | null;
  /** Pace that the rest needs to stay within the budget. */
  toComplete: number | null;
}

export function earnedFigures({ budget, planned, earned, actual }: EarnedSums): EarnedFigures {
  const cpi = over(earned, actual);
  return {
    scheduleVariance: earned - planned,
    costVariance: earned - actual,
    spi: over(earned, planned),
    cpi,
    estimateAtCompletion: cpi === null ? null : over(budget, cpi),
    toComplete: budget > actual ? over(budget - earned, budget - actual) : null,
  };
}

/** Tasks done over tasks that the baseline wanted done by now: the baseline execution index. */
export const executionIndex = (done: number, wanted: number): number | null => over(done, wanted);

/**
 * Critical path length index: (length + float) / length. Below 0.95 the way to the gate is called too short for the
 * work on it (a point of the DCMA's 2005 check; from memory).
 * @param length working minutes from now to ready
 * @param float working minutes from ready to the gate, below 0 when she is late
 */
export const pathLengthIndex = (length: number, float: number): number | null => over(length + float, length);

const over = (a: number, b: number): number | null => (b > 0 ? a / b : null);
