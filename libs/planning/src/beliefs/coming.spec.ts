import { crewOdds } from '@ribband/engine';
import { Database, localToInstant, newId, scratchKinds, YardClock } from '@ribband/platform';
import { AbsenceEntity, AttendanceEntity, TurnoutEntity } from '@ribband/roster';
import { LessThan } from 'typeorm';
import { TestHouse } from '../planning.fixture.js';
import { Weeks } from '../week/weeks.service.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import { comingOf } from './coming.js';

describe('How likely people come', () => {
  const hands = [
    { id: 'steady', showUpChance: 0.8 },
    { id: 'seldom', showUpChance: 0.8 },
    { id: 'the hired hand', showUpChance: 1 },
  ];

  it('is what was stated of them until there is a record, and then what the record bears out', () => {
    const before = comingOf(hands, { showUps: new Map(), met: [] });
    expect(hands.map(({ id }) => before.chanceOf(id))).toEqual([0.8, 0.8, 1]);
    const showUps = new Map([
      ['steady', { came: 10, expected: 10 }],
      ['seldom', { came: 2, expected: 10 }],
      ['the hired hand', { came: 9, expected: 10 }],
    ]);
    const after = comingOf(hands, { showUps, met: [] });
    // Four yes and one no to begin with: (4 + 10) / 15 and (4 + 2) / 15.
    expect(after.chanceOf('steady')).toBeCloseTo(14 / 15, 9);
    expect(after.chanceOf('seldom')).toBeCloseTo(6 / 15, 9);
    expect(after.chanceOf('the hired hand')).toBe(1);
    expect(after.chanceOf('a stranger')).toBe(0);
  });

  it('hangs together where the record is of days on which all came or nobody did', () => {
    const day = (came: boolean) => ({ expected: Array.from({ length: 8 }, () => ({ chance: 0.8, came })) });
    const each = { expected: Array.from({ length: 8 }, (_, k) => ({ chance: 0.8, came: k < 6 })) };
    const known = (met: (typeof each)[]) => comingOf(hands, { showUps: new Map(), met }).together;
    const alike = known([day(true), day(true), day(false), day(true), day(true), day(false)]);
    expect(alike).toBeGreaterThan(0.5);
    expect(known([each, each, each, each, each, each])).toBeLessThan(0.1);
    // One of five is enough: where they stay away together, the four others are no help when it rains.
    const five = Array.from({ length: 5 }, () => ({
      chance: 0.8,
      seated: [{ work: 0, seats: [] }],
      standsIn: [],
    }));
    const odds = (together: number) => crewOdds([{ seats: [], least: 1 }], five, 0, together);
    expect(odds(alike)).toBeLessThan(odds(0) - 0.03);
  });
});

describe.each(scratchKinds())('The odds of a crew on %s', (kind) => {
  let house: TestHouse;
  beforeEach(async () => {
    house = await TestHouse.open(kind);
  });
  afterEach(() => house.close());

  it('go down where people stayed away without a word', async () => {
    await house.app.get(YardBook).import(house.caller('director'), { ...smallYard(), places: [] }, false);
    await house.settled();
    const now = localToInstant('2027-03-12', '07:00', 'America/Los_Angeles');
    const { organisationId } = house;
    await house.database.write((manager) => house.app.get(YardClock).set(manager, organisationId, now));
    const tenths = async () => {
      const { turnouts } = await house.app.get(Weeks).propose(house.caller('coordinator'), '2027-03-13');
      const words = turnouts.flatMap(({ odds }) => [...odds.values()]);
      return words.map((one) => Number(/\d/.exec(one)?.[0] ?? 0) + (one.startsWith('Better') ? 1 : 0));
    };
    const before = await tenths();
    const turnouts = await house.database.read.findBy(TurnoutEntity, { endsAt: LessThan(now) });
    const refs = smallYard().volunteers.map(({ ref }) => ref);
    const people = await Promise.all(refs.map((ref) => house.volunteer(ref)));
    const ids = people.map(({ volunteerId }) => volunteerId ?? '');
    await house.app.get(Database).write(async (manager) => {
      for (const turnout of turnouts) {
        const of = { organisationId, turnoutId: turnout.id };
        await manager.insert(AttendanceEntity, {
          ...{ ...of, id: newId('attendance'), volunteerId: ids[0], arrivedAt: turnout.startsAt },
          ...{ leftAt: null, how: 'ticked', enteredBy: 'the coordinator' },
        });
        for (const volunteerId of ids.slice(1))
          await manager.insert(AbsenceEntity, { ...of, id: newId('absence'), volunteerId, saidSo: false });
      }
    });
    const after = await tenths();
    expect(after).toHaveLength(before.length);
    expect(after.every((tenth, k) => tenth <= before[k])).toBe(true);
    expect(after.some((tenth, k) => tenth < before[k])).toBe(true);
  });
});
