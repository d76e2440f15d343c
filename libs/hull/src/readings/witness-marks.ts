import { inches, inchFraction, type Millimetres } from '../measure.js';
import { need } from '../refusal.js';
import { PRACTICE, type Rule } from '../rule.js';

/** When a hull that is open moves. The shipwright may change each with a written reason. */
export const DRIFT_RULES = {
  baseline: {
    key: 'shape-baseline',
    says: 'the baseline counts once two readers have read the mark after blocking, each twice; before that nothing is opened',
    value: { readers: 2, readingsEach: 2 },
    origin: PRACTICE,
  },
  warn: {
    key: 'shape-drift-warning',
    says: 'a mark that has moved 1/8 in is warned of, once two readers have read it, each twice: less than that is within the tape’s error',
    value: { inches: 1 / 8, readers: 2, readingsEach: 2 },
    origin: PRACTICE,
  },
  hold: {
    key: 'shape-drift-hold',
    says: 'a mark that has moved 1/4 in holds every opening task until the shipwright lifts the hold',
    value: { inches: 1 / 4 },
    origin: PRACTICE,
  },
} satisfies Record<string, Rule<unknown>>;

/** One reading of a mark: a breadth, a height of the keel line. */
export interface Reading {
  /** Day counted from any fixed day. */
  day: number;
  reader: string;
  value: Millimetres;
  /** Afloat before haul-out; after blocking, the baseline; then on a rhythm. */
  when: 'afloat' | 'after blocking' | 'later';
}

export type DriftState =
  | { kind: 'no baseline'; says: string }
  | {
      kind: 'steady' | 'read again' | 'warn' | 'hold';
      moved: Millimetres;
      perWeek: Millimetres;
      says: string;
    };

/** What a mark's readings say on the last day it was read. */
export function driftOf(mark: string, readings: Reading[]): DriftState {
  need(
    readings.every((one) => Number.isFinite(one.value) && one.reader.trim() !== ''),
    'readings',
    'a reading without a value or a reader',
    'millimetres and who read them',
  );
  const baseline = readings.filter((one) => one.when === 'after blocking');
  const later = readings.filter((one) => one.when === 'later');
  if (!readBy(baseline, DRIFT_RULES.baseline.value))
    return {
      kind: 'no baseline',
      says:
        baseline.length === 0
          ? `${mark} has not been read after blocking: nothing is opened before`
          : `${mark} has not been read after blocking by two readers, each twice: nothing is opened before`,
    };
  const from = mean(baseline);
  const lastDay = Math.max(...later.map((one) => one.day), -Infinity);
  const last = later.filter((one) => one.day === lastDay);
  const moved = last.length === 0 ? 0 : mean(last) - from;
  const perWeek = trend([...baseline, ...later]) * 7;
  const far = Math.max(0, ...last.map((one) => Math.abs(one.value - from)));
  const said = movedWords(mark, moved);
  if (isHeldAt(far)) return { kind: 'hold', moved, perWeek, says: holdWords(mark, moved) };
  if (far < inches(DRIFT_RULES.warn.value.inches) - 1e-9)
    return { kind: 'steady', moved, perWeek, says: said };
  if (!readBy(last, DRIFT_RULES.warn.value))
    return { kind: 'read again', moved, perWeek, says: `${said}: two readers, each twice, before it counts` };
  return Math.abs(moved) >= inches(DRIFT_RULES.warn.value.inches) - 1e-9
    ? { kind: 'warn', moved, perWeek, says: `${said}: look at shores and braces before more is opened` }
    : { kind: 'steady', moved, perWeek, says: said };
}

/** A reading with the order in which it was entered: whether it was entered since the last hold was lifted. */
type EnteredReading = Reading & { sinceLifted: boolean };

/**
 * The words of the last hold that readings made when they were entered; null where none did. What was entered later,
 * another baseline too, does not undo a hold; and a baseline that is not enough to open her is enough to hold.
 * @param entered in the order of entry
 */
export function holdOf(mark: string, entered: readonly EnteredReading[]): string | null {
  const baseline: Reading[] = [];
  const later: Reading[] = [];
  let held: string | null = null;
  for (const reading of entered) {
    if (reading.when === 'afloat') continue;
    const isBaseline = reading.when === 'after blocking';
    if (isBaseline) baseline.push(reading);
    else if (reading.sinceLifted) later.push(reading);
    else continue;
    // A baseline may make a hold out of what was read before it; it words none anew.
    if (baseline.length === 0 || (isBaseline && held !== null)) continue;
    const from = mean(baseline);
    for (const { value } of isBaseline ? later : [reading])
      if (isHeldAt(Math.abs(value - from))) held = holdWords(mark, value - from);
  }
  return held;
}

const isHeldAt = (moved: Millimetres): boolean => moved >= inches(DRIFT_RULES.hold.value.inches) - 1e-9;
const movedWords = (mark: string, moved: Millimetres): string =>
  `${mark} has moved ${inchFraction(moved)} in`;
const holdWords = (mark: string, moved: Millimetres): string =>
  `${movedWords(mark, moved)}: every opening task is held`;

const mean = (readings: Reading[]): number =>
  readings.reduce((sum, one) => sum + one.value, 0) / readings.length;

/** Whether so many people read it, each so often. A name in other letters is the same person. */
function readBy(
  readings: Reading[],
  { readers, readingsEach }: { readers: number; readingsEach: number },
): boolean {
  const times = new Map<string, number>();
  for (const { reader } of readings) {
    const name = reader.trim().replace(/\s+/g, ' ').toLowerCase();
    times.set(name, (times.get(name) ?? 0) + 1);
  }
  return [...times.values()].filter((count) => count >= readingsEach).length >= readers;
}

/** Millimetres a day, by least squares; 0 where all were read on one day. */
function trend(readings: Reading[]): number {
  const day = readings.reduce((sum, one) => sum + one.day, 0) / readings.length;
  const value = mean(readings);
  const spread = readings.reduce((sum, one) => sum + (one.day - day) ** 2, 0);
  if (spread === 0) return 0;
  return readings.reduce((sum, one) => sum + (one.day - day) * (one.value - value), 0) / spread;
}
