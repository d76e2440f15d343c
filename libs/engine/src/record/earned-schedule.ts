/** One point of a baseline: so much was wanted done by this minute. */
export interface PlannedPoint {
  minute: number;
  planned: number;
}

export interface EarnedSchedule {
  /** Minute at which the baseline wanted done what is done now. */
  earnedMinute: number;
  /** Time earned over time gone, SPI(t): below 1 is behind, also at the end. Null before any time has gone. */
  spiT: number | null;
}

/**
 * Earned schedule (Lipke, Schedule is Different, The Measurable News, 2003; from memory): looks up on the baseline
 * when what is earned now was to be earned, straight between its points.
 * @param baseline in order of time, planned never falling; its first point is the start
 * @param earned in the baseline's unit
 */
export function earnedSchedule(
  baseline: readonly PlannedPoint[],
  earned: number,
  now: number,
): EarnedSchedule | null {
  const last = baseline.at(-1);
  if (last === undefined) return null;
  const first = baseline[0];
  const earnedMinute = minuteOf(baseline, first, last, earned);
  const gone = now - first.minute;
  return { earnedMinute, spiT: gone > 0 ? (earnedMinute - first.minute) / gone : null };
}

function minuteOf(
  baseline: readonly PlannedPoint[],
  first: PlannedPoint,
  last: PlannedPoint,
  earned: number,
): number {
  if (earned <= first.planned) return first.minute;
  if (earned >= last.planned) return reached(baseline, last.planned);
  const k = baseline.findIndex((point) => point.planned > earned);
  const from = baseline[k - 1];
  const to = baseline[k];
  return from.minute + ((earned - from.planned) / (to.planned - from.planned)) * (to.minute - from.minute);
}

/** The first minute at which the baseline wanted so much. */
const reached = (baseline: readonly PlannedPoint[], planned: number): number =>
  baseline.find((point) => point.planned >= planned)?.minute ?? 0;
