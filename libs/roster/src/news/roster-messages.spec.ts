import { Message, scratchKinds } from '@ribband/platform';
import { TestYard } from '../roster.fixture.js';
import type { SeatToPost } from '../places/reconcile-places.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';

describe.each(scratchKinds())('What the roster tells people, on %s', (kind) => {
  let yard: TestYard;
  let turnout: TurnoutEntity;
  let taskId: string;
  beforeEach(async () => {
    yard = await TestYard.open(kind);
    turnout = await yard.at.turnouts.add(yard.caller('coordinator'), {
      on: '2027-03-13',
      startTime: '09:00',
      endTime: '14:00',
    });
    taskId = await yard.addTask('Bung the sheer strake');
  });
  afterEach(() => yard.close());

  const seatFor = async (ref: string): Promise<SeatToPost> => ({
    turnoutId: turnout.id,
    taskId,
    skillId: null,
    level: 0,
    volunteerId: (await yard.hand(ref)).volunteerId,
    startsAt: turnout.startsAt,
    endsAt: turnout.endsAt,
    why: null,
  });
  const post = (seats: SeatToPost[]) =>
    yard.at.database.write((manager) =>
      yard.at.posting.post(manager, yard.organisationId, [turnout.id], seats, 'plan_1'),
    );
  const toldTo = async (ref: string) => {
    const recipientId = (await yard.hand(ref)).volunteerId ?? '';
    return yard.at.database.read.find(Message, { where: { recipientId }, order: { id: 'ASC' } });
  };

  it('who is posted is told once, with day, hours and work', async () => {
    const seat = await seatFor('anselm');
    await post([seat]);
    await post([seat]);
    const told = await toldTo('anselm');
    expect(told.map((one) => [one.kind, one.subject])).toEqual([
      ['roster-posted', 'You are on the roster for Saturday, March 13'],
    ]);
    expect(told[0]?.words).toContain('Saturday, March 13, 09:00 to 14:00: Bung the sheer strake');
  });

  it('who is not wanted any more is told, and the one who comes instead', async () => {
    await post([await seatFor('anselm')]);
    await post([await seatFor('hand-1')]);
    expect((await toldTo('anselm')).map((one) => one.kind)).toEqual(['roster-posted', 'place-changed']);
    expect((await toldTo('hand-1')).map((one) => one.kind)).toEqual(['roster-posted']);
  });

  it('a turnout that is called off is told to everybody with a place there, and to nobody else', async () => {
    await post([await seatFor('anselm')]);
    const coordinator = yard.caller('coordinator');
    await yard.at.turnouts.cancel(coordinator, turnout.id, turnout.version, 'A gale is coming.');
    const [, calledOff] = await toldTo('anselm');
    expect(calledOff).toMatchObject({ kind: 'turnout-called-off', evenAtNight: false });
    expect(calledOff.words).toContain('A gale is coming.');
    expect(await toldTo('hand-1')).toEqual([]);
  });

  it('closing a day tells those who had a place on it', async () => {
    await post([await seatFor('anselm')]);
    const day = { fromOn: '2027-03-13', toOn: '2027-03-13', name: 'Harbor day', yearly: false };
    await yard.at.closedDays.close(yard.caller('coordinator'), [day], false);
    expect((await toldTo('anselm')).map((one) => one.kind)).toEqual(['roster-posted', 'turnout-called-off']);
  });
});
