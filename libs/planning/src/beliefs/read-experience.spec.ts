import { Database, newId, scratchKinds } from '@ribband/platform';
import { YardBoard } from '@ribband/repair';
import { AbsenceEntity, AttendanceEntity, TurnoutEntity } from '@ribband/roster';
import { TestHouse } from '../planning.fixture.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import { readExperience } from './read-experience.js';

describe.each(scratchKinds())('Who came, as the records on %s say', (kind) => {
  let house: TestHouse;
  beforeEach(async () => {
    house = await TestHouse.open(kind, 'ask');
    await house.app.get(YardBook).import(house.caller('director'), smallYard(), false);
  });
  afterEach(() => house.close());

  it('counts nobody as missing who sent word, and nothing of a turnout that was called off', async () => {
    const { organisationId } = house;
    const order = { startsAt: 'ASC' } as const;
    const turnouts = await house.database.read.find(TurnoutEntity, { order, take: 2 });
    const people = ['anselm-druitt', 'halcyon-reeves', 'marguerite-alkin'];
    const [there, sick, missing] = (await Promise.all(people.map((ref) => house.volunteer(ref)))).map(
      ({ volunteerId }) => volunteerId ?? '',
    );
    const [held, calledOff] = turnouts;
    await house.app.get(Database).write(async (manager) => {
      for (const turnout of [held, calledOff]) {
        const of = { organisationId, turnoutId: turnout.id };
        await manager.insert(AttendanceEntity, {
          ...of,
          id: newId('attendance'),
          volunteerId: there,
          arrivedAt: turnout.startsAt,
          leftAt: null,
          how: 'ticked',
          enteredBy: 'the coordinator',
        });
        for (const [volunteerId, saidSo] of [
          [sick, true],
          [missing, false],
        ] as const)
          await manager.insert(AbsenceEntity, { ...of, id: newId('absence'), volunteerId, saidSo });
      }
      await manager.update(TurnoutEntity, { id: calledOff.id }, { cancelledAt: calledOff.startsAt });
    });
    const board = await house.app.get(YardBoard).of(house.database.read, organisationId);
    const { showUps } = await readExperience(house.database.read, organisationId, {
      ...board,
      now: calledOff.endsAt + 1,
    });
    expect(showUps.get(missing)).toEqual({ came: 0, expected: 1 });
    expect(showUps.has(sick)).toBe(false);
  });
});
