import { addDays, expandRule, instantToLocal, localToInstant } from '@ribband/platform';

/** A turnout as the rules make it. */
export interface DatedTurnout {
  ruleId: string;
  heldOn: string;
  startTime: string;
  endTime: string;
  /** Epoch milliseconds. */
  startsAt: number;
  endsAt: number;
}

export interface LaidOutRule {
  id: string;
  rule: string;
  startsOn: string;
  untilOn: string | null;
  startTime: string;
  endTime: string;
}

/**
 * The dated turnouts of all rules from the first local day to the last, closed days left out, in order of time. Where
 * two rules meet at the same start, the first one counts.
 */
export function layOut(
  rules: readonly LaidOutRule[],
  closedDays: ReadonlySet<string>,
  timeZone: string,
  firstDay: string,
  lastDay: string,
): DatedTurnout[] {
  if (lastDay < firstDay) return [];
  const from = localToInstant(firstDay, '00:00', timeZone);
  const to = localToInstant(addDays(lastDay, 1), '00:00', timeZone);
  const bySlot = new Map<string, DatedTurnout>();
  for (const { id, ...rule } of rules) {
    for (const startsAt of expandRule({ ...rule, timeZone }, from, to)) {
      const { day } = instantToLocal(startsAt, timeZone);
      const key = `${day} ${rule.startTime}`;
      if (closedDays.has(day) || bySlot.has(key)) continue;
      const endsAt = localToInstant(day, rule.endTime, timeZone);
      bySlot.set(key, {
        ruleId: id,
        heldOn: day,
        startTime: rule.startTime,
        endTime: rule.endTime,
        startsAt,
        endsAt,
      });
    }
  }
  return [...bySlot.values()].sort((a, b) => a.startsAt - b.startsAt);
}

/** The last day to which rules are laid out: 52 weeks past the fallback gate, or the gate where there is none. */
export function lastTurnoutDay(slots: readonly { kind: string; on: string }[]): string | null {
  const slot = slots.find(({ kind }) => kind === 'fallback') ?? slots.find(({ kind }) => kind === 'gate');
  return slot ? addDays(slot.on, 364) : null;
}
