import { facts, person, sawn, seat, stay, toldOf } from './few-people.fixture.js';
import { makeRoster } from './make-roster.js';
import type { WeekSeat } from './seats-of-week.js';
import type { ToldPlan } from '../../plans/told-plan.js';

function holders(told: ToldPlan, seats: WeekSeat[], given = facts(), fixed = new Map<string, number>()) {
  const { held } = makeRoster(told, seats, given, fixed);
  return Object.fromEntries(held.map((one) => [one.seat.key, one.person]));
}

describe('somebody who works only so many minutes a week', () => {
  it('keeps what fits, however long the other work that they may do', () => {
    const told = toldOf(person('Pell', { minutesAWeek: 240 }), person('Quill'));
    const seats = [seat(0, { planned: 0, to: 240 }), seat(1, { turnout: 1, planned: 1, to: 300 })];
    expect(holders(told, seats)).toEqual({ 'seat-0': 0, 'seat-1': 1 });
  });

  it('keeps the turnouts that the plan has found for them, and is given no more than their minutes', () => {
    const told = toldOf(person('Pell', { minutesAWeek: 240 }), person('Quill', { stays: [stay(0)] }));
    const seats = [
      seat(0, { planned: 0, to: 120 }),
      seat(1, { turnout: 1, planned: 0, to: 120 }),
      seat(2, { planned: 1, to: 200 }),
    ];
    expect(holders(told, seats)).toEqual({ 'seat-0': 0, 'seat-1': 0, 'seat-2': 1 });
    const away = toldOf(person('Pell', { minutesAWeek: 240 }), person('Quill', { stays: [] }));
    expect(holders(away, seats)).toEqual({ 'seat-0': 0, 'seat-1': 0, 'seat-2': null });
  });

  it('is where the coordinator has put them, and elsewhere only for what is left', () => {
    const told = toldOf(person('Pell', { minutesAWeek: 240 }));
    const seats = [seat(0, { to: 300 }), seat(1, { turnout: 1, planned: 0, to: 120 })];
    expect(holders(told, seats, facts(), new Map([['seat-0', 0]]))).toEqual({ 'seat-0': 0, 'seat-1': null });
    const short = [seat(0, { to: 120 }), seat(1, { turnout: 1, planned: 0, to: 120 })];
    expect(holders(told, short, facts(), new Map([['seat-0', 0]]))).toEqual({ 'seat-0': 0, 'seat-1': 0 });
  });
});

describe('what was said before', () => {
  it('has nobody in two places at once: where the coordinator puts them goes before their own yes', () => {
    const told = toldOf(person('Pell'), person('Quill'));
    const seats = [seat(0, { planned: 0, to: 120 }), seat(1, { planned: 1, from: 60, to: 300 })];
    const given = facts({ taken: new Map([['seat-0', 0]]) });
    expect(holders(told, seats, given, new Map([['seat-1', 0]]))).toEqual({ 'seat-0': 1, 'seat-1': 0 });
  });

  it('keeps the first of two yeses that a newer plan has at the same time, and both of two after each other', () => {
    const told = toldOf(person('Pell'));
    const given = facts({
      taken: new Map([
        ['seat-0', 0],
        ['seat-1', 0],
      ]),
    });
    const after = [seat(0, { to: 120 }), seat(1, { from: 120, to: 300 })];
    expect(holders(told, after, given)).toEqual({ 'seat-0': 0, 'seat-1': 0 });
    const meanwhile = [seat(0, { to: 120 }), seat(1, { from: 60, to: 300 })];
    expect(holders(told, meanwhile, given)).toEqual({ 'seat-0': 0, 'seat-1': null });
  });
});

describe('a lesson that somebody has said yes to', () => {
  it('keeps its teacher on that work where the plan has another, unless the coordinator wants them elsewhere', () => {
    const told = toldOf(
      person('Pell', { levels: [3] }),
      person('Tarn', { levels: [3] }),
      person('Quill', { levels: [1] }),
    );
    const seats = [seat(sawn, { planned: 1, to: 120 }), seat(0, { planned: 0, to: 120 })];
    const lesson = { learner: 2, teacher: 0, task: sawn, turnout: 0, startsAt: told.instant(0) };
    const given = facts({ lessons: [{ ...lesson, endsAt: told.instant(120) }] });
    expect(holders(told, seats)).toEqual({ 'seat-8': 1, 'seat-0': 0 });
    expect(holders(told, seats, given)).toEqual({ 'seat-8': 0, 'seat-0': 1 });
    // At another time it is no lesson of that seat.
    const later = facts({ lessons: [{ ...lesson, startsAt: told.instant(120), endsAt: told.instant(240) }] });
    expect(holders(told, seats, later)).toEqual({ 'seat-8': 1, 'seat-0': 0 });
    expect(holders(told, seats, given, new Map([['seat-0', 0]]))).toEqual({ 'seat-8': 1, 'seat-0': 0 });
  });
});

describe('where people keep each other from their seats', () => {
  it('the last of them gives way, and the others keep theirs', () => {
    const told = toldOf(person('Pell'), person('Quill'), person('Rudd'), person('Sorrel'));
    const seats = [seat(0, { planned: 2, to: 300 }), seat(1, { planned: 3, to: 300 })];
    // A gate keeps away whom the plan has there; of the two others only one may be there.
    const given = facts({
      stops: (who) => (who > 1 ? ['Not without a card.'] : []),
      stoppedInCompany: (held) => held.map(() => (held.length > 1 ? ['One learner at a time.'] : [])),
    });
    const at = holders(told, seats, given);
    expect(Object.values(at).filter((who) => who !== null)).toHaveLength(1);
    expect(at['seat-0']).not.toBeNull();
  });
});
