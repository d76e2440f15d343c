import { driftOf, type DriftState, holdOf } from '@ribband/hull';
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
 * What a mark says. A hold does not end by itself when a later reading looks better or a baseline is read anew: it
 * lasts until the shipwright lifts it, and the next reading as far out holds anew.
 */
export function markState(
  mark: Pick<WitnessMark, 'name' | 'everyDays'>,
  readings: readonly Reading[],
  lifts: readonly Pick<HoldLift, 'liftedAt'>[],
  today: string,
  hauledOutOn: string,
): MarkState {
  const lifted = Math.max(0, ...lifts.map((lift) => lift.liftedAt));
  const kept = readings
    .filter((one) => one.struckBy === null)
    .sort((a, b) => a.enteredAt - b.enteredAt)
    .map((one) => ({
      day: daysBetween('2000-01-01', one.readOn),
      on: one.readOn,
      reader: one.reader,
      value: one.millimetres,
      when: one.time,
      sinceLifted: one.enteredAt > lifted,
    }));
  const drift = driftOf(mark.name, kept);
  return { drift, held: holdOf(mark.name, kept), due: dueOn(mark, drift, kept, today, hauledOutOn) };
}

function dueOn(
  { everyDays }: Pick<WitnessMark, 'everyDays'>,
  drift: DriftState,
  kept: readonly { on: string; when: Reading['time'] }[],
  today: string,
  hauledOutOn: string,
): MarkState['due'] {
  if (drift.kind === 'no baseline')
    return today >= hauledOutOn ? { what: 'after blocking', on: hauledOutOn } : null;
  const ashore = kept.filter(({ when }) => when !== 'afloat').map(({ on }) => on);
  const on = addDays(ashore.sort().at(-1) ?? hauledOutOn, everyDays);
  return on <= today ? { what: 'later', on } : null;
}
