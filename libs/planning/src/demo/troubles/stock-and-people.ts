import {
  AvailabilityExceptionEntity,
  AvailabilityRuleEntity,
  CardEntity,
  CardKind,
  Volunteer,
} from '@ribband/crew';
import { addDays, weekdayOf } from '@ribband/platform';
import type { ToldPlan } from '../../plans/told-plan.js';
import { as, notThere, notYet, taskBy, type Trouble } from './trouble.js';

/** Everything that waits for the mill. */
export const plankStockLate: Trouble = {
  key: 'plank-stock-late',
  title: 'The mill writes again: the plank stock comes four weeks later still',
  story:
    'Every plank waits for it. As long as sawing decides, there is room before the planking, and the day hardly moves; else she is later.',
  reason: 'the plank stock was late',
  moves: 'later or not at all',
  async play({ read, tasks }, caller, today) {
    const task = await taskBy(read, caller.organisationId, 'plank-stock-delivered');
    const promised = task.notBefore !== null && task.notBefore > today ? task.notBefore : today;
    await tasks.edit(as(caller, 'coordinator'), task.id, task.version, {
      notBefore: addDays(promised, 28),
    });
    return [];
  },
};

/** The one on whom the pace hangs. */
export const sawyerAway: Trouble = {
  key: 'sawyer-away',
  title: 'Anselm Druitt, who saws, stays away three weeks longer',
  story: 'He is the only one who saws alone: what he would have sawn waits until 17 July.',
  reason: 'the sawyer was away longer',
  moves: 'later',
  async play({ read, availability }, caller) {
    const { organisationId } = caller;
    const sawyer = await read.findOneBy(Volunteer, { organisationId, ref: 'anselm-druitt' });
    if (!sawyer) return notThere('Anselm Druitt');
    const volunteerId = sawyer.id;
    const timed = <T extends { fromTime: string | null; toTime: string | null }>(row: T) => ({
      ...row,
      from: row.fromTime,
      to: row.toTime,
    });
    const rules = (await read.findBy(AvailabilityRuleEntity, { volunteerId })).map(timed);
    const exceptions = (await read.findBy(AvailabilityExceptionEntity, { volunteerId })).map(timed);
    const away = { fromOn: '2027-06-05', toOn: '2027-07-17', canCome: false, from: null, to: null };
    const others = exceptions.filter(({ fromOn }) => fromOn !== away.fromOn);
    await availability.set(as(caller, 'coordinator'), volunteerId, sawyer.version, rules, [...others, away]);
    return [];
  },
};

/** A card that a turnout wants. */
export const firstAidExpired: Trouble = {
  key: 'first-aid-expired',
  title: 'A first-aid card turns out to have run out',
  story:
    'On one Sunday nobody else who is expected holds one that counts, and the week says so at that turnout. The usual practice is one at every turnout; the date does not move.',
  reason: 'a first-aid card had run out',
  moves: 'not at all',
  async play({ read, cards, weeks, shelf }, caller, today) {
    const { organisationId } = caller;
    const told = await shelf.inForce(organisationId);
    if (!told) return notYet('There is no plan yet that says who is expected.', 'Wait until it is reckoned.');
    const kind = await read.findOneBy(CardKind, { organisationId, purpose: 'first-aid' });
    const sunday = kind && leastFirstAid(told, kind.id);
    if (!kind || !sunday) return notThere('a Sunday with a first-aid card');
    const { turnoutId, day, holders } = sunday;
    const coordinator = as(caller, 'coordinator');
    const ranOutOn = addDays(today, -1);
    for (const { id: volunteerId } of holders) {
      const held = await read.findBy(CardEntity, { volunteerId, kindId: kind.id });
      const [first, ...others] = held.filter(({ expiresOn }) => expiresOn === null || expiresOn >= today);
      for (const { id } of others) await cards.remove(coordinator, id);
      if (!first) continue;
      await cards.remove(coordinator, first.id);
      const { issuer } = first;
      await cards.add(coordinator, { volunteerId, kindId: kind.id, issuer, expiresOn: ranOutOn });
    }
    const { turnouts } = await weeks.propose(coordinator, day);
    const notices = turnouts.find(({ turnout }) => turnout.id === turnoutId)?.notices ?? [];
    return [
      ...holders.map(({ name }) => `${name}’s first-aid card ran out on ${told.days.weekday(ranOutOn)}.`),
      ...notices.map((notice) => `The week says at ${told.days.weekday(day)}: ${notice}`),
    ];
  },
};

/** Sundays that are looked at: the crew knows who comes in the next weeks. */
const mostSundays = 8;

/** The Sunday to come on which the fewest who are expected hold a card that counts, one at least. */
function leastFirstAid(
  told: ToldPlan,
  kindId: string,
): { turnoutId: string; day: string; holders: { id: string; name: string }[] } | null {
  const { turnouts, people, clearances, now } = told.problem;
  const clearance = clearances.findIndex(({ id }) => id === kindId);
  const sundays = turnouts.flatMap(({ id, start }, w) => {
    const day = told.days.dayOf(told.instant(start));
    return start >= now && weekdayOf(day) === 7 ? [{ turnoutId: id, day, w, start }] : [];
  });
  const known = sundays.slice(0, mostSundays).map(({ turnoutId, day, w, start }) => ({
    turnoutId,
    day,
    holders: people.filter(
      (one) =>
        one.stays.some(({ turnout, showUp }) => turnout === w && showUp > 0) &&
        one.clearances.some((held) => held.clearance === clearance && (held.until ?? start) >= start),
    ),
  }));
  const some = known.filter(({ holders }) => holders.length > 0);
  return some.sort((a, b) => a.holders.length - b.holders.length)[0] ?? null;
}
