import type { Beta, Gamma, Lateness } from '../forecast/beliefs.js';

/** Minutes lost at taking a task up again, from what was lost so far. */
export function setUpOf(
  lost: readonly number[],
  stated: number,
): { minutes: number; evidence: { returns: number; stated: number } } {
  // What the task states is worth three returns.
  const sum = lost.reduce((total, minutes) => total + minutes, 0);
  return {
    minutes: (3 * stated + sum) / (3 + lost.length),
    evidence: { returns: lost.length, stated },
  };
}

/**
 * How late stock comes, from deliveries so far: minutes of the calendar after the day that was promised, 0 or less
 * where it came in time.
 */
export function latenessOf(deliveries: readonly number[]): {
  late: Lateness;
  evidence: { deliveries: number; late: number };
} {
  const late = deliveries.filter((minutes) => minutes > 0);
  const chance = (USUAL_LATE.a + late.length) / (USUAL_LATE.a + USUAL_LATE.b + deliveries.length);
  const mean = (2 * USUAL_DELAY + late.reduce((sum, one) => sum + one, 0)) / (2 + late.length);
  const minutes: Gamma = { shape: DELAY_SHAPE, rate: DELAY_SHAPE / mean };
  return { late: { chance, minutes }, evidence: { deliveries: deliveries.length, late: late.length } };
}

/** One delivery in four late, by two weeks, spread widely: common practice, no source. */
const USUAL_LATE: Beta = { a: 1, b: 3 };
const USUAL_DELAY = 14 * 24 * 60;
const DELAY_SHAPE = 1.5;

/** How often shown work is sent back, and which share of it is then done again. */
export function reworkOf(
  shown: number,
  sentBack: readonly number[],
): {
  chance: number;
  share: number;
  evidence: { shown: number; sentBack: number };
} {
  const redone = sentBack.reduce((sum, share) => sum + share, 0);
  return {
    chance: (USUAL_REWORK.a + sentBack.length) / (USUAL_REWORK.a + USUAL_REWORK.b + shown),
    share: (2 * USUAL_REDONE + redone) / (2 + sentBack.length),
    evidence: { shown, sentBack: sentBack.length },
  };
}

/** One in twenty sent back, a fifth of it done again: common practice, no source. */
const USUAL_REWORK: Beta = { a: 1, b: 19 };
const USUAL_REDONE = 0.2;
