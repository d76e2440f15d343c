import { driftOf, type DriftState } from '@ribband/hull';
import { addDays, daysBetween } from '@ribband/platform';
import type { HoldLift } from './hold-lift.entity.js';
import type { MarkReading } from './mark-reading.entity.js';
import type { WitnessMark } from './witness-mark.entity.js';

type Reading = Pick<MarkReading, 'readOn' | 'time' | 'reader' | 'millimetres' | 'enteredAt' | 'struckBy'>;

export interface MarkState {
  drift: DriftState;
  /** Why opening is held, in words; null while it is not. */
  held: string | null;
  /** The reading that is due, and since when; null while none is. */
  due: { what: 'after blocking' | 'later'; on: string } | null;
}

/**
 * What a mark says. A hold does not end by itself when a later reading looks better: it lasts until the shipwright
 * lifts it, and the next reading as far out holds anew.
 */
export function markState(
  mark: Pick<WitnessMark, 'name' | 'everyDays'>,
  readings: readonly Reading[],
  lifts: readonly Pick<HoldLift, 'liftedAt'>[],
  today: string,
  hauledOutOn: string,
): MarkState {
  const kept = readings.filter((one) => one.struckBy === null);
  const drift = driftOfReadings(mark.name, kept);
  const lifted = Math.max(0, ...lifts.map((lift) => lift.liftedAt));
  return { drift, held: heldSince(mark.name, kept, lifted), due: dueOn(mark, kept, today, hauledOutOn) };
}

const driftOfReadings = (name: string, readings: readonly Reading[]): DriftState =>
  driftOf(
    name,
    readings.map(({ readOn, time, reader, millimetres }) => ({
      day: daysBetween('2000-01-01', readOn),
      reader,
      value: millimetres,
      when: time,
    })),
  );

/** The words of the last hold that readings entered after an instant make, day by day as they were read. */
function heldSince(name: string, readings: readonly Reading[], since: number): string | null {
  const days = readings.filter((one) => one.enteredAt > since).map((one) => one.readOn);
  const holds = [...new Set(days)].sort().flatMap((day) => {
    const drift = driftOfReadings(
      name,
      readings.filter((one) => one.readOn <= day),
    );
    return drift.kind === 'hold' ? [drift.says] : [];
  });
  return holds.at(-1) ?? null;
}

function dueOn(
  mark: Pick<WitnessMark, 'everyDays'>,
  readings: readonly Reading[],
  today: string,
  hauledOutOn: string,
): MarkState['due'] {
  const ashore = readings.filter((one) => one.time !== 'afloat').map((one) => one.readOn);
  const last = ashore.sort().at(-1);
  if (!readings.some((one) => one.time === 'after blocking'))
    return today >= hauledOutOn ? { what: 'after blocking', on: hauledOutOn } : null;
  const on = addDays(last ?? hauledOutOn, mark.everyDays);
  return on <= today ? { what: 'later', on } : null;
}
