import type { Problem } from '@ribband/engine';
import { Database, newId, scratchKinds } from '@ribband/platform';
import { YardBoard } from '@ribband/repair';
import { AbsenceEntity, AttendanceEntity, TurnoutEntity } from '@ribband/roster';
import { IsNull } from 'typeorm';
import { TestHouse } from '../planning.fixture.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import type { YardDocument } from '../yard/yard-document.js';
import { beliefsFor } from './beliefs.js';
import { readExperience } from './read-experience.js';

type Flitch = YardDocument['timber']['flitches'][number];

/** Stock of which one came a month late, one ten days, one on its day, and one is awaited. */
function delivered(): YardDocument['timber'] {
  const flitch = (at: number, promisedOn: string, cameOn: string | null): Flitch => ({
    ...{ mark: `F${String(at)}`, species: 'fir', use: 'planking', log: null, source: null, readings: [] },
    taped: { thickness: 60, length: 3000, widths: [300, 300], sweep: 0, sapwood: 0, defects: [] },
    ...{ lies: null, reservedFor: null, usedOn: null },
    ...{ promisedOn, cameOn, expectedOn: cameOn === null ? promisedOn : null },
  });
  const flitches = [
    flitch(1, '2027-01-04', '2027-02-03'),
    flitch(2, '2027-01-11', '2027-01-21'),
    flitch(3, '2027-02-01', '2027-02-01'),
    flitch(4, '2027-06-01', null),
  ];
  return { ...smallYard().timber, flitches };
}

/** A yard of one task that waits for stock until a minute. */
function awaiting(notBefore: number): Problem {
  return {
    ...{ format: 'ribband-problem/1', now: 0, horizon: 2 * notBefore, skills: [], clearances: [] },
    ...{ turnouts: [], people: [], tools: [], elements: [], openingLimits: [], links: [], posted: [] },
    aim: { gate: 2 * notBefore, slots: [2 * notBefore] },
    tasks: [
      {
        ...{ id: 'hang', name: 'Hang the plank', effort: { kind: 'work', personMinutes: 60 }, seats: [] },
        ...{ crew: { min: 1, efficient: 1, max: 1 }, clearances: [], oneGo: false, setUpMinutes: 0 },
        ...{ extraHandShare: 0.5, learnerShare: 0.5, tools: [], opens: [], closes: [], notBefore },
        progress: { kind: 'waiting' },
      },
    ],
  };
}

describe.each(scratchKinds())('What the records on %s say', (kind) => {
  let house: TestHouse;
  beforeEach(async () => {
    house = await TestHouse.open(kind, 'ask');
    await house.app
      .get(YardBook)
      .import(house.caller('director'), { ...smallYard(), timber: delivered() }, false);
  });
  afterEach(() => house.close());

  it('counts nobody as missing who sent word, and nothing of a turnout that was called off', async () => {
    const { organisationId } = house;
    const order = { startsAt: 'ASC' } as const;
    const where = { kind: IsNull() };
    const turnouts = await house.database.read.find(TurnoutEntity, { where, order, take: 2 });
    const people = ['anselm-druitt', 'halcyon-reeves', 'cass-underhay', 'marguerite-alkin'];
    const [there, sick, missing, late] = (await Promise.all(people.map((ref) => house.volunteer(ref)))).map(
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
          // Found missing at the call; her badge says that she came, so she did.
          [late, false],
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
    expect(showUps.get(late)).toEqual({ came: 1, expected: 1 });
  });

  it('learns how late stock comes from what was promised and what came', async () => {
    const { organisationId } = house;
    const board = await house.app.get(YardBoard).of(house.database.read, organisationId);
    const known = await readExperience(house.database.read, organisationId, board);
    expect(known.deliveryDelays).toEqual([30, 10, 0]);
    const beliefs = (of: typeof known) => beliefsFor(awaiting(10 * 1440), of).beliefs.tasks[0].late;
    // One in four late by two weeks, worth four deliveries and two late ones: (1 + 2) / 7 by (2 x 14 + 40) / 4 days.
    const late = beliefs(known);
    expect(late?.chance).toBeCloseTo(3 / 7, 9);
    expect((late?.minutes.shape ?? 0) / (late?.minutes.rate ?? 1)).toBeCloseTo(17 * 1440, 6);
    expect(beliefs({ ...known, deliveryDelays: [] })?.chance).toBeCloseTo(1 / 4, 9);
  });
});
