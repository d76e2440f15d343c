import type { ShownEvent } from './feed.entity.js';

/** What a calendar was last told of a place. */
export interface KnownEvent {
  placeId: string;
  sequence: number;
  shown: ShownEvent;
  changedAt: number;
}

/** How long a calendar goes on being told that an event is cancelled: time enough for a phone that was away. */
export const cancelledForMillis = 30 * 24 * 60 * 60_000;
/** How long what is over stays. */
export const pastForMillis = 60 * 24 * 60 * 60_000;

export interface EventChanges {
  /** As the calendar shall show them now, in order of time. */
  events: KnownEvent[];
  /** Those of them that are new or have changed. */
  changed: KnownEvent[];
  /** Places whose events are told no more. */
  dropped: string[];
}

/**
 * What to tell a calendar, from what it was told and how things stand. An event keeps its UID for as long as its place
 * lasts; its SEQUENCE rises with each change that somebody would see; one whose place is gone is told as cancelled for
 * thirty days. Asking twice changes nothing.
 *
 * @param standing the places that somebody has now, by place id
 * @param now real time, for the notes; `yardNow` is the yard's
 */
export function settleEvents(
  known: readonly KnownEvent[],
  standing: ReadonlyMap<string, ShownEvent>,
  now: number,
  yardNow: number,
): EventChanges {
  const result: EventChanges = { events: [], changed: [], dropped: [] };
  const keep = (event: KnownEvent, isChanged: boolean): void => {
    result.events.push(event);
    if (isChanged) result.changed.push(event);
  };
  const seen = new Set<string>();
  for (const event of known) {
    seen.add(event.placeId);
    const wanted = standing.get(event.placeId) ?? { ...event.shown, status: 'CANCELLED' as const };
    const isOver = wanted.endsAt < yardNow - pastForMillis;
    const isToldEnough =
      wanted.status === 'CANCELLED' &&
      event.shown.status === 'CANCELLED' &&
      event.changedAt < now - cancelledForMillis;
    if (isOver || isToldEnough) result.dropped.push(event.placeId);
    else if (isSame(event.shown, wanted)) keep(event, false);
    else keep({ ...event, shown: wanted, sequence: event.sequence + 1, changedAt: now }, true);
  }
  for (const [placeId, shown] of standing)
    if (!seen.has(placeId) && shown.endsAt >= yardNow - pastForMillis)
      keep({ placeId, shown, sequence: 0, changedAt: now }, true);
  result.events.sort((a, b) => a.shown.startsAt - b.shown.startsAt || (a.placeId < b.placeId ? -1 : 1));
  return result;
}

const isSame = (a: ShownEvent, b: ShownEvent): boolean =>
  (Object.keys(a) as (keyof ShownEvent)[]).every((field) => a[field] === b[field]);
