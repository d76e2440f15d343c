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
