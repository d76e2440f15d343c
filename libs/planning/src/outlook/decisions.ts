import type { HullToday, LiftSlot, LiftSlotKind, SlotWord } from '@ribband/repair';
import { addDays } from '@ribband/platform';
import type { ToldPlan } from '../plans/told-plan.js';
import { oddsWords } from '../words/odds-words.js';

export interface Due {
  on: string;
  words: string;
  isLate: boolean;
  /** The lift slot that is to be decided on. */
  slot?: LiftSlot;
}

/** A slot that the forecast counted with, and what the yard was told about it since. */
export interface SlotSeen {
  slot: LiftSlot;
  /** What it was to the plan. */
  role: LiftSlotKind;
  odds: number;
  word: Pick<SlotWord, 'word'> | null;
}

/** Notices further away than this can wait for the page of a later day. */
const horizonDays = 45;

/** With odds like these nobody thinks of a later slot yet. */
const goodEnough = 0.9;

/** A confirmed slot that is less likely to be made than this is looked at again while it can be let go. */
const evenOdds = 0.5;

/**
 * What is due to be decided or told to somebody, soonest first: slots, outside eyes, stale readings, orders.
 * @param orders as they were found
 */
export function decisionsOf(
  told: ToldPlan,
  hull: Pick<HullToday, 'holdPoints' | 'marks' | 'board' | 'today'>,
  slots: readonly SlotSeen[],
  orders: readonly Due[] = [],
): Due[] {
  const { today } = hull;
  const due = (on: string, words: string): Due => ({ on, words, isLate: on < today });
  const left = slots.filter(({ word }) => word?.word !== 'released');
  const surely = left.findIndex(({ odds }) => odds >= goodEnough);
  const ofSlots = left.flatMap(({ slot, role, odds, word }, at): Due[] => {
    if (slot.confirmBy === null || slot.liftsOn < today) return [];
    const named = `${slotName[role]} on ${told.days.weekday(slot.liftsOn)}`;
    const chance = `${oddsWords(odds)} to be ready by it`;
    if (word !== null) {
      const words = `Look again at ${named}: it is confirmed, and the odds are ${chance}. Until then it can be released.`;
      return odds < evenOdds && slot.confirmBy >= today ? [{ ...due(slot.confirmBy, words), slot }] : [];
    }
    if (surely >= 0 && at > surely) return [];
    return [{ ...due(slot.confirmBy, `Confirm or release ${named}: ${chance}.`), slot }];
  });
  const ofEyes = hull.holdPoints.flatMap((point): Due[] => {
    const task = hull.board.task.get(point.taskId);
    const index = told.indexOf(point.taskId);
    const times = index === undefined ? undefined : told.plan?.tasks[index];
    if (point.seenOn !== null || point.noticeOn !== null || !task || !times) return [];
    const on = addDays(told.days.dayOf(told.instant(times.start)), -point.noticeDays);
    return [
      due(
        on,
        `Tell the ${eyesWords[point.eyes]} of “${task.title}”, planned for ${told.days.atWeekday(told.instant(times.start))}.`,
      ),
    ];
  });
  const ofMarks = hull.marks.flatMap(({ mark, state }): Due[] =>
    state.due === null ? [] : [due(state.due.on, `Read ${mark.name}: a reading is due.`)],
  );
  return [...ofSlots, ...ofEyes, ...ofMarks, ...orders]
    .filter(({ on }) => on <= addDays(today, horizonDays) || ofSlots.some((slot) => slot.on === on))
    .sort((a, b) => a.on.localeCompare(b.on));
}

const eyesWords = {
  surveyor: 'surveyor',
  insurer: 'insurer',
  funder: 'funder',
  inspector: 'inspector',
  sling: 'person who sees slings and staging',
} as const;

const slotName = { gate: 'the gate', fallback: 'the fallback gate', later: 'a later slot' } as const;
