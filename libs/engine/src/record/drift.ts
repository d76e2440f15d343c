/** A dated forecast: on this day the date in question was that day. Both in days from any one day. */
export interface DriftPoint {
  on: number;
  date: number;
}

export interface Drift {
  /** Days by which the date moves with each week that goes by; above 0 it slips. */
  daysAWeek: number;
  /** Index of the point from which it has moved so. */
  since: number;
}

/** Fewest points that make a line that means something. */
const least = 3;
/** A second line has to leave this share of the first one's misfit at most, or it is chance. */
const worthIt = 0.6;

/**
 * How fast a forecast date moves, and since when: the newest stretch of a line that may break once. Slopes are the
 * median of the slopes between all pairs (Theil 1950, Sen 1968; from memory), so that one odd week says nothing.
 * @param points in order of `on`
 * @returns null where there are too few
 */
export function driftOf(points: readonly DriftPoint[]): Drift | null {
  if (points.length < least) return null;
  const whole = lineThrough(points);
  let best = { since: 0, misfit: whole.misfit * worthIt, slope: whole.slope };
  for (let k = 1; k <= points.length - least; k++) {
    const before = lineThrough(points.slice(0, k + 1));
    const after = lineThrough(points.slice(k));
    const misfit = before.misfit + after.misfit;
    if (misfit < best.misfit - 1e-9) best = { since: k, misfit, slope: after.slope };
  }
  return { daysAWeek: best.slope * 7, since: best.since };
}

/** Misfit is the sum of the distances from the line. */
function lineThrough(points: readonly DriftPoint[]): { slope: number; misfit: number } {
  const slopes = points.flatMap((a, i) =>
    points.slice(i + 1).flatMap((b) => (b.on > a.on ? [(b.date - a.date) / (b.on - a.on)] : [])),
  );
  const slope = medianOf(slopes);
  const level = medianOf(points.map(({ on, date }) => date - slope * on));
  const misfit = points.reduce((sum, { on, date }) => sum + Math.abs(date - slope * on - level), 0);
  return { slope, misfit };
}

function medianOf(values: readonly number[]): number {
  if (values.length === 0) return 0;
  const sorted = [...values].sort((a, b) => a - b);
  const middle = Math.floor(sorted.length / 2);
  const upper = sorted[middle] ?? 0;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? upper) + upper) / 2;
}
