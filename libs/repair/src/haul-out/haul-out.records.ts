import { In, type EntityManager } from 'typeorm';
import { HaulOut } from './haul-out.entity.js';
import { LiftSlot } from './lift-slot.entity.js';
import { type SlotStanding, standingsOf } from './slots-left.js';
import { SlotWord } from './slot-word.entity.js';

/** The haul-out in force: the newest that was entered; null before an import. */
export function haulOutInForce(manager: EntityManager, organisationId: string): Promise<HaulOut | null> {
  return manager.findOne(HaulOut, { where: { organisationId }, order: { id: 'DESC' } });
}

/** Its lift slots in order of time. */
export function liftSlotsOf(manager: EntityManager, haulOutId: string): Promise<LiftSlot[]> {
  return manager.find(LiftSlot, { where: { haulOutId }, order: { startsAt: 'ASC', id: 'ASC' } });
}

/** All that the yard was told about some slots, oldest first. */
export function slotWordsOf(manager: EntityManager, slotIds: readonly string[]): Promise<SlotWord[]> {
  return manager.find(SlotWord, { where: { slotId: In([...slotIds]) }, order: { id: 'ASC' } });
}

/** Its lift slots in order of time, each with the word that holds for it. */
export async function slotStandingsOf(manager: EntityManager, haulOutId: string): Promise<SlotStanding[]> {
  const slots = await liftSlotsOf(manager, haulOutId);
  return standingsOf(
    slots,
    await slotWordsOf(
      manager,
      slots.map(({ id }) => id),
    ),
  );
}
