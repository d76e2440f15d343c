import type { HullToday, LiftSlot } from '@ribband/repair';
import { addDays } from '@ribband/platform';
import type { ToldPlan } from '../plans/told-plan.js';
import { oddsWords } from '../words/odds-words.js';

export interface Due {
  on: string;
  words: string;
  isLate: boolean;
}

/** Notices further away than this can wait for the page of a later day. */
const horizonDays = 45;

/** With odds like these nobody thinks of a later slot yet. */
const goodEnough = 0.9;

/** What is due to be decided or told to somebody, soonest first: slots, outside eyes, stale readings. */
export function decisionsOf(
  told: ToldPlan,
  hull: Pick<HullToday, 'holdPoints' | 'marks' | 'board' | 'today'>,
  slots: readonly { slot: LiftSlot; odds: number }[],
): Due[] {
  const { today } = hull;
  const due = (on: string, words: string): Due => ({ on, words, isLate: on < today });
  const surely = slots.findIndex(({ odds }) => odds >= goodEnough);
  const ofSlots = slots.flatMap(({ slot, odds }, at): Due[] =>
    slot.confirmBy === null || slot.liftsOn < today || (surely >= 0 && at > surely)
      ? []
      : [
          due(
            slot.confirmBy,
            `Confirm or release ${slotName(slot)} on ${told.days.weekday(slot.liftsOn)}: ${oddsWords(odds)} to be ready by it.`,
          ),
        ],
  );
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
  return [...ofSlots, ...ofEyes, ...ofMarks]
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

const slotName = ({ kind }: LiftSlot): string =>
  kind === 'gate' ? 'the gate' : kind === 'fallback' ? 'the fallback gate' : 'a later slot';
