import type { Minute, RosterPerson } from '@ribband/engine';
import type { ToldPlan } from '../../plans/told-plan.js';
import { minutesOf, type SeatsInARow } from './berths.js';

/** Of somebody who works only so many minutes a week: how many turnouts, and which berths are too long for that. */
export interface WeekCaps {
  quotas: RosterPerson['quotas'];
  /** By turnout, the longest berth that leaves room for the others; none where any that they may take does. */
  longest: ReadonlyMap<number, Minute>;
}

/** A berth as far as one person's week looks at it. */
interface Berth {
  turnout: number;
  minutes: Minute;
  /** Whether the coordinator has put them there. */
  isPut: boolean;
  isPlanned: boolean;
}

const aWeek: Minute = 10_080;

/**
 * As many turnouts of each week as fit, were each the longest that they may take there. Where the plan has found more,
 * as many as the plan's, and then nothing longer than what the plan gives them. So they may be given a little less than
 * they would do, never more, but where the coordinator has put them counts whatever it is.
 * @param may whether somebody may take a berth, by its index
 */
export function weekCaps(
  { problem }: ToldPlan,
  rows: readonly SeatsInARow[],
  person: number,
  minutesAWeek: Minute,
  may: (berth: number) => boolean,
): WeekCaps {
  const weeks = new Map<number, Berth[]>();
  rows.forEach((row, b) => {
    const isPut = row.fixed === person;
    if (!isPut && !may(b)) return;
    const week = Math.floor((problem.turnouts[row.turnout]?.start ?? 0) / aWeek);
    const isPlanned = row.planned === person;
    const one = { turnout: row.turnout, minutes: minutesOf(row), isPut, isPlanned };
    weeks.set(week, [...(weeks.get(week) ?? []), one]);
  });
  const longest = new Map<number, Minute>();
  const quotas = [...weeks.values()].map((berths) => {
    const put = longestOf(berths.filter(({ isPut }) => isPut));
    const others = berths.filter(({ turnout }) => !put.has(turnout));
    const planned = longestOf(others.filter(({ isPlanned }) => isPlanned));
    const all = longestOf(others);
    const left = minutesAWeek - sum([...put.values()]);
    const fit = fitting([...all.values()], left);
    const asPlanned = fitting([...planned.values()], left);
    if (asPlanned > fit) {
      const least = Math.min(...planned.values());
      for (const turnout of all.keys()) longest.set(turnout, planned.get(turnout) ?? least);
    }
    return {
      turnouts: [...new Set(berths.map(({ turnout }) => turnout))],
      most: put.size + Math.max(fit, asPlanned),
    };
  });
  return { quotas, longest };
}

/** How many fit together whichever they are: the longest are counted first. */
function fitting(minutes: readonly Minute[], left: Minute): number {
  const sorted = [...minutes].sort((a, b) => b - a);
  const many = sorted.findIndex((_, i) => sum(sorted.slice(0, i + 1)) > left);
  return many < 0 ? sorted.length : many;
}

function longestOf(berths: readonly Berth[]): Map<number, Minute> {
  const longest = new Map<number, Minute>();
  for (const { turnout, minutes } of berths)
    longest.set(turnout, Math.max(minutes, longest.get(turnout) ?? 0));
  return longest;
}

const sum = (minutes: readonly Minute[]): Minute => minutes.reduce((all, one) => all + one, 0);
