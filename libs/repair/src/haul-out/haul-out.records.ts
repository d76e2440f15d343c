import type { EntityManager } from 'typeorm';
import { HaulOut } from './haul-out.entity.js';
import { LiftSlot } from './lift-slot.entity.js';

/** The haul-out in force: the newest that was entered; null before an import. */
export function haulOutInForce(manager: EntityManager, organisationId: string): Promise<HaulOut | null> {
  return manager.findOne(HaulOut, { where: { organisationId }, order: { id: 'DESC' } });
}

/** Its lift slots in order of time. */
export function liftSlotsOf(manager: EntityManager, haulOutId: string): Promise<LiftSlot[]> {
  return manager.find(LiftSlot, { where: { haulOutId }, order: { startsAt: 'ASC', id: 'ASC' } });
}
