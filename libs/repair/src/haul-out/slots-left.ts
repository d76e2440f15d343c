import type { LiftSlot, LiftSlotKind } from './lift-slot.entity.js';
import type { SlotWord } from './slot-word.entity.js';

/** A slot with the word that holds for it; null where none does. */
export interface SlotStanding {
  slot: LiftSlot;
  word: SlotWord | null;
}

/** A slot that she can still be lifted in. */
export interface SlotLeft extends SlotStanding {
  /** What it is to the project now. */
  role: LiftSlotKind;
}

/**
 * @param words in the order in which they were given; the newest of a slot holds, and one that takes it back leaves none
 */
export function standingsOf(slots: readonly LiftSlot[], words: readonly SlotWord[]): SlotStanding[] {
  const newest = new Map(words.map((word) => [word.slotId, word]));
  return slots.map((slot) => {
    const word = newest.get(slot.id) ?? null;
    return { slot, word: word?.word === 'taken back' ? null : word };
  });
}

/**
 * Those that are not released. The one that was booked as the gate is the gate, also where an earlier one is left; once
 * it is released the first that is left is the gate, whatever it was booked as.
 * @param standings in order of time
 */
export function slotsLeft(standings: readonly SlotStanding[]): SlotLeft[] {
  const left = standings.filter(({ word }) => word?.word !== 'released');
  const gate = left.find(({ slot }) => slot.kind === 'gate') ?? left[0];
  return left.map((standing) => ({ ...standing, role: standing === gate ? 'gate' : standing.slot.kind }));
}
