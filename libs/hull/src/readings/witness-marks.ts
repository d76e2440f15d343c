import { inches, inchFraction, type Millimetres } from '../measure.js';
import { need } from '../refusal.js';
import { PRACTICE, type Rule } from '../rule.js';

/** When a hull that is open moves. The shipwright may change each with a written reason. */
export const DRIFT_RULES = {
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
  if (baseline.length === 0)
    return {
      kind: 'no baseline',
      says: `${mark} has not been read after blocking: nothing is opened before`,
    };
  const from = mean(baseline);
  const lastDay = Math.max(...later.map((one) => one.day), -Infinity);
  const last = later.filter((one) => one.day === lastDay);
  const moved = last.length === 0 ? 0 : mean(last) - from;
  const perWeek = trend([...baseline, ...later]) * 7;
  const far = Math.max(0, ...last.map((one) => Math.abs(one.value - from)));
  const said = `${mark} has moved ${inchFraction(moved)} in`;
  if (far >= inches(DRIFT_RULES.hold.value.inches) - 1e-9)
    return { kind: 'hold', moved, perWeek, says: `${said}: every opening task is held` };
  if (far < inches(DRIFT_RULES.warn.value.inches) - 1e-9)
    return { kind: 'steady', moved, perWeek, says: said };
  if (!wellRead(last))
    return { kind: 'read again', moved, perWeek, says: `${said}: two readers, each twice, before it counts` };
  return Math.abs(moved) >= inches(DRIFT_RULES.warn.value.inches) - 1e-9
    ? { kind: 'warn', moved, perWeek, says: `${said}: look at shores and braces before more is opened` }
    : { kind: 'steady', moved, perWeek, says: said };
}

const mean = (readings: Reading[]): number =>
  readings.reduce((sum, one) => sum + one.value, 0) / readings.length;

function wellRead(readings: Reading[]): boolean {
  const { readers, readingsEach } = DRIFT_RULES.warn.value;
  const names = [...new Set(readings.map((one) => one.reader))];
  const full = names.filter((name) => readings.filter((one) => one.reader === name).length >= readingsEach);
  return full.length >= readers;
}

/** Millimetres a day, by least squares; 0 where all were read on one day. */
function trend(readings: Reading[]): number {
  const day = readings.reduce((sum, one) => sum + one.day, 0) / readings.length;
  const value = mean(readings);
  const spread = readings.reduce((sum, one) => sum + (one.day - day) ** 2, 0);
  if (spread === 0) return 0;
  return readings.reduce((sum, one) => sum + (one.day - day) * (one.value - value), 0) / spread;
}
