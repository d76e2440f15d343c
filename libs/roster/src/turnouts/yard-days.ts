import { addDays, refuse } from '@ribband/platform';
import { HaulOut, LiftSlot } from '@ribband/repair';
import type { EntityManager } from 'typeorm';
import { lastTurnoutDay } from './lay-out.js';

/** The haul-out as far as the calendar looks at it. */
export interface YardDays {
  timeZone: string;
  hauledOutOn: string;
  /** The last day to which rules are laid out. */
  lastDay: string;
}

/** The days of the haul-out in force, or null before there is one. */
export async function yardDays(manager: EntityManager, organisationId: string): Promise<YardDays | null> {
  const haulOut = await manager.findOne(HaulOut, { where: { organisationId }, order: { id: 'DESC' } });
  if (!haulOut) return null;
  const slots = await manager.findBy(LiftSlot, { haulOutId: haulOut.id });
  const lastDay = lastTurnoutDay(slots.map(({ kind, liftsOn }) => ({ kind, on: liftsOn })));
  return {
    timeZone: haulOut.timeZone,
    hauledOutOn: haulOut.hauledOutOn,
    lastDay: lastDay ?? haulOut.hauledOutOn,
  };
}

/** How far turnouts are laid on where the slots say less. */
const daysAhead = 366;

/** @throws RefusalError BAD_INPUT for a day on which nobody knows yet what the yard will do */
export function refuseFar(on: string, { lastDay }: Pick<YardDays, 'lastDay'>, today: string): void {
  const ahead = addDays(today, daysAhead);
  const last = lastDay > ahead ? lastDay : ahead;
  if (on > last)
    refuse('BAD_INPUT', `${on} is too far ahead.`, { field: 'on', remedy: `A day up to ${last}.` });
}
