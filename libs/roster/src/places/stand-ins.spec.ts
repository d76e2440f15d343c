import { AvailabilityRuleEntity, Volunteer } from '@ribband/crew';
import { Message, newId, scratchKinds } from '@ribband/platform';
import { TestYard } from '../roster.fixture.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';

describe.each(scratchKinds())('a place that is left on %s', (kind) => {
  let yard: TestYard;
  let saturday: string;

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    const coordinator = yard.caller('coordinator');
    const hours = { startTime: '09:00', endTime: '14:00' };
    saturday = (await yard.at.turnouts.add(coordinator, { on: '2027-03-06', ...hours })).id;
    for (const ref of ['hand-2', 'hand-3', 'ysolde', 'cass']) await comesOnSaturdays(ref);
  });
  afterEach(() => yard.close());

  async function comesOnSaturdays(ref: string): Promise<void> {
    const { volunteerId } = await yard.hand(ref);
    await yard.at.database.write((manager) =>
      manager.insert(AvailabilityRuleEntity, {
        id: newId('availabilityrule'),
        organisationId: yard.organisationId,
        volunteerId: volunteerId ?? '',
        rule: 'FREQ=WEEKLY;BYDAY=SA',
        startsOn: '2027-01-02',
        untilOn: null,
        fromTime: null,
        toTime: null,
      }),
    );
  }
  const asked = async (): Promise<string[]> => {
    const { read } = yard.at.database;
    const wanted = await read.findBy(Message, { organisationId: yard.organisationId, kind: 'place-wanted' });
    const people = await read.findBy(Volunteer, { organisationId: yard.organisationId });
    return wanted
      .map(({ recipientId }) => people.find(({ id }) => id === recipientId)?.ref ?? recipientId)
      .sort();
  };

  it('late is asked for at once: of those who come that day, are free and may take it', async () => {
    const taskId = await yard.addTask('Carry planks');
    const place = await yard.addPlace({ turnoutId: saturday, taskId });
    const elsewhere = await yard.addPlace({ turnoutId: saturday, taskId: await yard.addTask('Sort nails') });
    await yard.at.places.take(await yard.hand('hand-1'), place.id);
    await yard.at.places.take(await yard.hand('hand-3'), elsewhere.id);
    await yard.at.places.leave(await yard.hand('hand-1'), place.id, null);
    // Cass is under 18 and would be alone on it; hand-3 is busy; nobody else said that they come.
    expect(await asked()).toEqual(['hand-2', 'ysolde']);
  });

  it('is not asked of whoever has said yes to something else at that time', async () => {
    const day = await yard.turnout('2027-03-06');
    const watch = { ...day, id: newId('turnout'), kind: 'watch', startTime: '08:00' } as const;
    await yard.at.database.write((manager) => manager.insert(TurnoutEntity, watch));
    const place = await yard.addPlace({ turnoutId: saturday, taskId: await yard.addTask('Carry planks') });
    const meanwhile = await yard.addPlace({ turnoutId: watch.id, taskId: await yard.addTask('Sort nails') });
    await yard.at.places.take(await yard.hand('hand-2'), meanwhile.id);
    await yard.at.places.take(await yard.hand('hand-1'), place.id);
    await yard.at.places.leave(await yard.hand('hand-1'), place.id, null);
    expect(await asked()).toEqual(['hand-3', 'ysolde']);
  });

  it('in good time is only open again', async () => {
    const coordinator = yard.caller('coordinator');
    const later = await yard.at.turnouts.add(coordinator, {
      on: '2027-03-13',
      startTime: '09:00',
      endTime: '14:00',
    });
    const place = await yard.addPlace({ turnoutId: later.id, taskId: await yard.addTask('Carry planks') });
    await yard.at.places.take(await yard.hand('hand-1'), place.id);
    await yard.at.places.leave(await yard.hand('hand-1'), place.id, null);
    expect(await asked()).toEqual([]);
  });

  it('is asked for once, however often "I can’t come" is pressed', async () => {
    const place = await yard.addPlace({ turnoutId: saturday, taskId: await yard.addTask('Carry planks') });
    const hand = await yard.hand('hand-1');
    await yard.at.places.take(hand, place.id);
    await Promise.all([
      yard.at.places.leave(hand, place.id, null, null, 'k'),
      yard.at.places.leave(hand, place.id, null, null, 'k'),
    ]);
    expect(await asked()).toEqual(['hand-2', 'hand-3', 'ysolde']);
  });
});
