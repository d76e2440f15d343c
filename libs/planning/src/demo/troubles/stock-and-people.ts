import {
  AvailabilityExceptionEntity,
  AvailabilityRuleEntity,
  CardEntity,
  CardKind,
  Volunteer,
} from '@ribband/crew';
import { addDays } from '@ribband/platform';
import { as, notThere, taskBy, type Trouble } from './trouble.js';

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
    'The week says at which turnouts nobody holds one that counts. The usual practice is one at every turnout; the date does not move.',
  reason: 'a first-aid card had run out',
  moves: 'not at all',
  async play({ read, cards }, caller, today) {
    const { organisationId } = caller;
    const kind = await read.findOneBy(CardKind, { organisationId, purpose: 'first-aid' });
    const old = kind && (await read.findOneBy(CardEntity, { organisationId, kindId: kind.id }));
    if (!kind || !old) return notThere('a first-aid card');
    const coordinator = as(caller, 'coordinator');
    await cards.add(coordinator, {
      volunteerId: old.volunteerId,
      kindId: kind.id,
      issuer: old.issuer,
      expiresOn: addDays(today, -1),
    });
    await cards.remove(coordinator, old.id);
    return [];
  },
};
