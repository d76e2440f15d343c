import { daysBetween, refuse } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { FlitchEntity } from './flitch.entity.js';
import { StockPromise } from './stock-promise.entity.js';

type Promised = Pick<FlitchEntity, 'expectedOn' | 'promisedOn' | 'cameOn'>;

/** Promises further off than this are slips of the pen. Common practice, no source. */
const farDays = 3 * 366;

/**
 * A day on which stock is newly expected is not years away.
 * @param before the day that was on record until now
 * @throws RefusalError BAD_INPUT
 */
export function refuseOddPromise(expectedOn: string | null, before: string | null, today: string): void {
  if (expectedOn === null || expectedOn === before) return;
  if (isSlip(daysBetween(today, expectedOn)))
    refuse('BAD_INPUT', `${expectedOn} is years away.`, {
      field: 'expectedOn',
      remedy: 'A day within three years; none where it is there.',
    });
}

/**
 * What an entry says of its delivery. The first promise counts, however often the day was put off; stock came on the day
 * on which its entry says that it is not awaited any more.
 * @param before the entry as it stood, or null for a new one
 */
export function deliveryOf(
  before: Promised | null,
  expectedOn: string | null,
  today: string,
): Pick<FlitchEntity, 'promisedOn' | 'cameOn'> {
  const promisedOn = before?.promisedOn ?? expectedOn;
  if (expectedOn !== null || promisedOn === null) return { promisedOn, cameOn: null };
  return { promisedOn, cameOn: before?.cameOn ?? today };
}

/**
 * By how many days stock came after the day first promised, 0 or less in time. What is put off counts as late by then
 * already; what nobody put off counts as there on its day, as in the timber book. What one source promised for one day
 * and brought on one day is one delivery. Of pieces that no stock is entered for nobody knows the source: those promised
 * for one day and expected on one day count as one.
 */
export async function deliveryDelays(
  manager: EntityManager,
  organisationId: string,
  today: string,
): Promise<number[]> {
  const flitches = await manager.find(FlitchEntity, { where: { organisationId }, order: { id: 'ASC' } });
  const delays = new Map<string, number>();
  for (const { promisedOn, expectedOn, cameOn, sourceId } of flitches) {
    const came = cameOn ?? expectedOn;
    if (promisedOn === null || came === null) continue;
    const isOpen = cameOn === null && expectedOn === promisedOn && promisedOn > today;
    const days = daysBetween(promisedOn, came);
    if (!isOpen && !isSlip(days)) delays.set(`${String(sourceId)} ${promisedOn} ${came}`, days);
  }
  const promises = await manager.find(StockPromise, { where: { organisationId }, order: { id: 'ASC' } });
  for (const { promisedOn, expectedOn } of promises) {
    const first = promisedOn ?? expectedOn;
    const isOpen = expectedOn === first && first > today;
    const days = daysBetween(first, expectedOn);
    if (!isOpen && !isSlip(days)) delays.set(`null ${first} ${expectedOn}`, days);
  }
  return [...delays.values()];
}

/** A year that was mistyped once says nothing of how late stock comes. */
const isSlip = (days: number): boolean => Math.abs(days) > farDays;
