import type { Person, Stay } from '@ribband/engine';
import { ageOn } from '@ribband/crew';
import { leastWorkingAge, type Clearances } from './clearances.js';
import { withinMonths } from './month-cap.js';
import type { PlanClock } from './minutes.js';
import type { HandRecord, YardRecords } from './yard-records.js';

/**
 * Everybody with what they can do and when they are expected. A place taken is a promise to come, whatever the rules
 * of availability say; a place left, with no other kept at that turnout, means not coming to it.
 */
export function buildPeople(
  yard: YardRecords,
  clearances: Clearances,
  clock: PlanClock,
  today: string,
): Person[] {
  const coming = comingWithinCaps(
    yard,
    yard.hands.map((hand) => staysOf(hand, yard, clock, today)),
  );
  return yard.hands.map((hand, i) => ({
    id: hand.id,
    name: hand.name,
    levels: yard.skills.map((skill) => hand.levels.get(skill.id) ?? 0),
    stays: coming[i] ?? [],
    clearances: clearances.ofHand(hand, today, clock),
    minutesAWeek: hand.minutesAWeek,
    minutesATurnout: hand.minutesATurnout,
  }));
}

function staysOf(hand: HandRecord, yard: YardRecords, clock: PlanClock, today: string): Stay[] {
  if (hand.bornOn !== null && ageOn(hand.bornOn, today) < leastWorkingAge) return [];
  const kept = new Map<string, { from: number; to: number }>();
  for (const { turnoutId, from, to } of hand.stays) kept.set(turnoutId, { from, to });
  const places = yard.places.filter((place) => place.handId === hand.id);
  for (const place of places) if (place.state === 'left') kept.delete(place.turnoutId);
  for (const place of places) {
    if (place.state === 'left') continue;
    const said = hand.stays.find((stay) => stay.turnoutId === place.turnoutId);
    const known = kept.get(place.turnoutId) ?? said;
    kept.set(place.turnoutId, {
      from: Math.min(place.startsAt, known?.from ?? place.startsAt),
      to: Math.max(place.endsAt, known?.to ?? place.endsAt),
    });
  }
  return yard.turnouts.flatMap((turnout, w): Stay[] => {
    const stay = kept.get(turnout.id);
    if (!stay || turnout.endsAt <= yard.now) return [];
    const from = clock.minuteFrom(Math.max(stay.from, turnout.startsAt));
    const to = clock.minute(Math.min(stay.to, turnout.endsAt));
    return from < to ? [{ turnout: w, from, to, showUp: hand.showUpChance }] : [];
  });
}

/** Takes the turnouts away that would be more in a month than somebody has asked for; what is over counts as well. */
function comingWithinCaps(yard: YardRecords, stays: readonly Stay[][]): Stay[][] {
  if (yard.hands.every((hand) => (hand.turnoutsAMonth ?? null) === null)) return [...stays];
  const months = yard.turnouts.map((turnout) => turnout.on.slice(0, 7));
  const indexOf = new Map(yard.turnouts.map((turnout, w) => [turnout.id, w]));
  const capped = yard.hands.map((hand, i) => {
    const could = new Map((stays[i] ?? []).map((stay) => [stay.turnout, false]));
    for (const place of yard.places) {
      const w = indexOf.get(place.turnoutId);
      if (w !== undefined && place.handId === hand.id && place.state === 'taken') could.set(w, true);
    }
    const skills = new Set([...hand.levels].flatMap(([skill, level]) => (level > 0 ? [skill] : [])));
    return { id: hand.id, turnoutsAMonth: hand.turnoutsAMonth ?? null, could, skills };
  });
  const left = withinMonths(capped, months);
  return yard.hands.map((hand, i) =>
    (stays[i] ?? []).filter((stay) => left.get(hand.id)?.has(stay.turnout) ?? false),
  );
}
