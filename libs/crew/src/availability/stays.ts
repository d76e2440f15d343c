import { addDays, expandRule, localToInstant } from '@ribband/platform';
import type { ComingException, ComingRule, DatedTurnout, Stay } from './availability.types.js';

interface Span {
  from: number;
  to: number;
}

/** Rules name days; noon exists on every day in every zone, so the day found never hangs on a clock change. */
const noon = '12:00';

/** The local days from `first` to `last` on which a rule occurs. */
function daysOfRule(rule: ComingRule, first: string, last: string, timeZone: string): Set<string> {
  const recurrence = { ...rule, startTime: noon, timeZone };
  const starts = expandRule(
    recurrence,
    localToInstant(first, '00:00', timeZone),
    localToInstant(addDays(last, 1), '00:00', timeZone),
  );
  const days = new Set<string>();
  let day = first;
  for (const start of starts) {
    // Days ascend, so one walk over the window names them all.
    while (localToInstant(day, noon, timeZone) < start) day = addDays(day, 1);
    days.add(day);
  }
  return days;
}

/** The part of a turnout that lies between two local times of its day; a `to` before `from` means the next morning. */
function partOf(
  turnout: DatedTurnout,
  times: { from: string | null; to: string | null },
  timeZone: string,
): Span | null {
  const from = times.from === null ? turnout.startsAt : localToInstant(turnout.on, times.from, timeZone);
  const endsNextDay = times.from !== null && times.to !== null && times.to <= times.from;
  const to =
    times.to === null
      ? turnout.endsAt
      : localToInstant(endsNextDay ? addDays(turnout.on, 1) : turnout.on, times.to, timeZone);
  const span = { from: Math.max(from, turnout.startsAt), to: Math.min(to, turnout.endsAt) };
  return span.from < span.to ? span : null;
}

/** Spans joined where they touch, in order of time. */
function joined(spans: Span[]): Span[] {
  const result: Span[] = [];
  for (const span of [...spans].sort((a, b) => a.from - b.from)) {
    const last = result.at(-1);
    if (last && span.from <= last.to) last.to = Math.max(last.to, span.to);
    else result.push({ ...span });
  }
  return result;
}

function without(spans: Span[], away: Span): Span[] {
  return spans.flatMap((span) =>
    [
      { from: span.from, to: Math.min(span.to, away.from) },
      { from: Math.max(span.from, away.to), to: span.to },
    ].filter((part) => part.from < part.to),
  );
}

/**
 * When somebody can be at each turnout. Rules say on which days, exceptions overrule them in the order in which they
 * stand, the later the stronger. Where what is left of a turnout falls into pieces the longest counts, the earliest
 * of equal ones: nobody is asked to leave and come back. Turnouts at which they can't be have no stay. At one that is
 * held on a holiday no rule counts.
 *
 * Times are local to `timeZone`; cost: one expansion a rule and a walk over the turnouts.
 */
export function staysOf(
  rules: readonly ComingRule[],
  exceptions: readonly ComingException[],
  turnouts: readonly DatedTurnout[],
  timeZone: string,
): Stay[] {
  if (turnouts.length === 0) return [];
  const days = turnouts.map((turnout) => turnout.on).sort() as [string, ...string[]];
  const [first, last] = [days[0], days.at(-1) ?? days[0]];
  const onDays = rules.map((rule) => ({ rule, days: daysOfRule(rule, first, last, timeZone) }));
  return turnouts.flatMap((turnout): Stay[] => {
    const byRule = onDays.flatMap(({ rule, days: ruleDays }) =>
      ruleDays.has(turnout.on) && turnout.isClosed !== true ? (partOf(turnout, rule, timeZone) ?? []) : [],
    );
    let spans = joined(byRule);
    for (const exception of exceptions) {
      if (turnout.on < exception.fromOn || turnout.on > exception.toOn) continue;
      const part = partOf(turnout, exception, timeZone);
      if (part) spans = exception.canCome ? joined([...spans, part]) : without(spans, part);
    }
    const longest = spans.reduce<Span | null>(
      (best, span) => (best && best.to - best.from >= span.to - span.from ? best : span),
      null,
    );
    return longest ? [{ turnoutId: turnout.id, ...longest }] : [];
  });
}
