import { AuditEntry } from '@ribband/access';
import { AvailabilityRuleEntity } from '@ribband/crew';
import { Message, newId, RefusalError, scratchKinds } from '@ribband/platform';
import { TestYard } from '../roster.fixture.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';

describe.each(scratchKinds())('who stands by on %s', (kind) => {
  let yard: TestYard;
  let turnout: TurnoutEntity;
  let ids: string[];

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    const hours = { on: '2027-03-06', startTime: '09:00', endTime: '14:00' };
    turnout = await yard.at.turnouts.add(yard.caller('coordinator'), hours);
    ids = await Promise.all(['hand-1', 'hand-2', 'hand-3'].map(async (ref) => idOf(ref)));
  });
  afterEach(() => yard.close());

  const idOf = async (ref: string) => (await yard.hand(ref)).volunteerId ?? '';
  const post = (volunteerIds: string[]) =>
    yard.at.database.write((manager) =>
      yard.at.swing.post(
        manager,
        yard.organisationId,
        [turnout.id],
        volunteerIds.map((volunteerId) => ({ turnoutId: turnout.id, volunteerId })),
      ),
    );
  const subjectsTo = async (id: string) =>
    (
      await yard.at.database.read.find(Message, {
        where: { organisationId: yard.organisationId, recipientId: id },
        order: { id: 'ASC' },
      })
    ).map(({ subject }) => subject);
  const codeOf = (work: Promise<unknown>) =>
    work.then(
      () => 'done',
      (error: unknown) => (error instanceof RefusalError ? error.refusal.code : 'a fault'),
    );

  it('is told once, however often the week is posted, and again when they need not stand by', async () => {
    expect(await post([ids[0], ids[1]])).toEqual({ added: 2, withdrawn: 0 });
    expect(await post([ids[0], ids[1]])).toEqual({ added: 0, withdrawn: 0 });
    expect(await post([ids[1]])).toEqual({ added: 0, withdrawn: 1 });
    expect(await subjectsTo(ids[0])).toEqual([
      'You stand by on Saturday, March 6',
      'Changed: you need not stand by on Saturday, March 6',
    ]);
    expect(await subjectsTo(ids[1])).toEqual(['You stand by on Saturday, March 6']);
    expect(await yard.at.swing.mine(await yard.hand('hand-2'))).toHaveLength(1);
    expect(await yard.at.swing.mine(await yard.hand('hand-1'))).toEqual([]);
  });

  it('says no with one press, twice at once too, and is not asked again', async () => {
    await post([ids[0]]);
    const hand = await yard.hand('hand-1');
    const [row] = await yard.at.swing.mine(hand);
    expect(await codeOf(yard.at.swing.leave(await yard.hand('hand-2'), row.id))).toBe('NOT_FOUND');
    await Promise.all([yard.at.swing.leave(hand, row.id, 'k'), yard.at.swing.leave(hand, row.id, 'k')]);
    await yard.at.swing.leave(hand, row.id);
    expect(await yard.at.database.read.countBy(AuditEntry, { operation: 'leaveSwing' })).toBe(1);
    expect(await yard.at.swing.mine(hand)).toEqual([]);
    expect(await post([ids[0]])).toEqual({ added: 0, withdrawn: 0 });
    expect(await codeOf(yard.at.swing.leave(hand, 'swing_none'))).toBe('NOT_FOUND');
  });

  it('goes where somebody left, from other work too, with one press', async () => {
    const [carry, sort] = [await yard.addTask('Carry planks'), await yard.addTask('Sort nails')];
    const place = await yard.addPlace({ turnoutId: turnout.id, taskId: carry });
    const other = await yard.addPlace({ turnoutId: turnout.id, taskId: carry });
    const own = await yard.addPlace({ turnoutId: turnout.id, taskId: sort });
    const [first, second, third] = await Promise.all(
      ['hand-1', 'hand-2', 'hand-3'].map((ref) => yard.hand(ref)),
    );
    await yard.at.database.write((manager) =>
      manager.insert(AvailabilityRuleEntity, {
        ...{ id: newId('availabilityrule'), organisationId: yard.organisationId, volunteerId: ids[1] },
        ...{ rule: 'FREQ=WEEKLY;BYDAY=SA', startsOn: '2027-01-02', untilOn: null },
        ...{ fromTime: null, toTime: null },
      }),
    );
    await yard.at.places.take(first, place.id);
    await yard.at.places.take(second, own.id);
    await post([ids[1]]);
    // Before somebody leaves, an open place is not theirs to change to.
    expect(await codeOf(yard.at.places.take(second, other.id))).toBe('ALREADY_ELSEWHERE');
    await yard.at.places.leave(first, place.id, null);
    expect(await subjectsTo(ids[1])).toContain('Can you step in on Saturday, March 6?');
    const [freed] = await yard.at.open.permittedTo(second);
    expect(freed).toMatchObject({ standsBy: true, place: { taskId: carry } });
    expect((await yard.at.open.permittedTo(third)).every(({ standsBy }) => !standsBy)).toBe(true);
    await yard.at.places.take(second, freed.place.id);
    const now = await yard.placesOn(turnout.id);
    const theirs = now.filter(({ volunteerId }) => volunteerId === ids[1]);
    expect(theirs.map(({ taskId, state }) => [taskId, state]).sort()).toEqual(
      [
        [carry, 'taken'],
        [sort, 'left'],
      ].sort(),
    );
    // What they did until then stands open.
    expect(
      now.some(({ taskId, state, volunteerId }) => taskId === sort && state === 'posted' && !volunteerId),
    ).toBe(true);
  });

  it('hears when the turnout is called off, and can say nothing any more', async () => {
    await post([ids[0]]);
    const hand = await yard.hand('hand-1');
    const [row] = await yard.at.swing.mine(hand);
    await yard.at.turnouts.cancel(
      yard.caller('coordinator'),
      turnout.id,
      turnout.version,
      'A gale is coming.',
    );
    expect(await subjectsTo(ids[0])).toContain('Called off: the turnout on Saturday, March 6');
    expect(await codeOf(yard.at.swing.leave(hand, row.id))).toBe('TURNOUT_OVER');
    expect(await post([ids[1]])).toEqual({ added: 0, withdrawn: 0 });
  });
});
