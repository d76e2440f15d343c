import { permit, type Caller } from '@ribband/access';
import { addDays, instantToLocal, refuse } from '@ribband/platform';
import type { YardNow } from './hour.records.js';

/** Nobody works longer at a stretch: a sign-off that was forgotten says when it was. */
const longestMinutes = 16 * 60;

/** Oneself, or whom the coordinator enters for. @throws RefusalError NOT_PERMITTED */
export function whose(caller: Caller, volunteerId: string | null): string {
  if (volunteerId !== null && volunteerId !== caller.volunteerId) {
    permit(caller, 'director', 'coordinator');
    return volunteerId;
  }
  return (
    caller.volunteerId ??
    refuse('NOT_PERMITTED', 'Your account is not tied to anybody in the crew.', {
      field: 'volunteerId',
      remedy: 'Say for whom, or ask the director to tie your account to your entry.',
    })
  );
}

/** @throws RefusalError BAD_INPUT for a time that is still to come */
export function refuseToCome(at: number, { now, zone }: YardNow, field: string): void {
  if (at <= now) return;
  const { time, day } = instantToLocal(at, zone);
  refuse('BAD_INPUT', `${time} on ${day} is still to come.`, {
    field,
    remedy: `It is ${instantToLocal(now, zone).time} at the yard: hours are entered when they are worked.`,
  });
}

/** Work on a vessel begins before she is hauled out, but not longer than this. */
const daysBefore = 366;

/** @throws RefusalError BAD_INPUT for a day long before the haul-out */
export function refuseLongAgo(on: string, hauledOutOn: string | null, field: string): void {
  if (hauledOutOn === null) return;
  const first = addDays(hauledOutOn, -daysBefore);
  if (on >= first) return;
  refuse('BAD_INPUT', `${on} is long before she was hauled out on ${hauledOutOn}.`, {
    field,
    remedy: `A day from ${first} on.`,
  });
}

/** @throws RefusalError BAD_INPUT for days of which the last is before the first */
export function refuseBackwards(from: string, to: string): void {
  if (to < from)
    refuse('BAD_INPUT', 'The last day is before the first.', {
      field: 'to',
      remedy: `Name ${from} or a later day.`,
    });
}

/** @throws RefusalError BAD_INPUT for hours that end before they start, or go on for longer than anybody works */
export function refuseLength(startsAt: number, endsAt: number, zone: string, field: string): void {
  const from = instantToLocal(startsAt, zone);
  if (endsAt - startsAt < 60_000)
    refuse('BAD_INPUT', `These hours began at ${from.time} on ${from.day} and would be over at once.`, {
      field,
      remedy: 'Say a later time, or take the entry out if it was a mistake.',
    });
  if (endsAt - startsAt > longestMinutes * 60_000)
    refuse('BAD_INPUT', `That would be more than ${longestMinutes / 60} hours at a stretch.`, {
      field,
      remedy: `They began at ${from.time} on ${from.day}: say when they ended.`,
    });
}

/** @throws RefusalError HOURS_OVERLAP: one is signed on already */
export function refuseStillOn(name: string, startsAt: number, zone: string): never {
  const { day, time } = instantToLocal(startsAt, zone);
  return refuse('HOURS_OVERLAP', `${name} is signed on since ${time} on ${day}.`, {
    field: 'volunteerId',
    remedy: 'Sign off there first; where it was forgotten, say when it was.',
  });
}
