import { scratchKinds } from '@ribband/platform';
import { TestYard } from '../roster.fixture.js';
import type { SeatToPost } from './reconcile-places.js';

describe.each(scratchKinds())('posting on %s', (kind) => {
  let yard: TestYard;
  let turnoutId: string;
  let startsAt: number;
  let endsAt: number;

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    const hours = { on: '2027-03-06', startTime: '09:00', endTime: '14:00' };
    ({ id: turnoutId, startsAt, endsAt } = await yard.at.turnouts.add(yard.caller('coordinator'), hours));
  });
  afterEach(() => yard.close());

  const seat = (taskId: string, volunteerId: string | null, rest: Partial<SeatToPost> = {}): SeatToPost => ({
    turnoutId,
    taskId,
    skillId: null,
    level: 0,
    volunteerId,
    startsAt,
    endsAt,
    why: 'a hand that day',
    ...rest,
  });
  const post = (seats: SeatToPost[]) =>
    yard.at.database.write((manager) =>
      yard.at.posting.post(manager, yard.organisationId, [turnoutId], seats, 'plan_1'),
    );
  const states = async () =>
    (await yard.placesOn(turnoutId)).map(
      (place) => `${place.state} ${place.volunteerId === null ? 'open' : 'named'}`,
    );

  it('the same week twice changes nothing, and keeps what was taken and left in between', async () => {
    const taskId = await yard.addTask('Carry planks');
    const [first, second] = [await yard.hand('hand-1'), await yard.hand('hand-2')];
    const seats = [seat(taskId, first.volunteerId), seat(taskId, second.volunteerId), seat(taskId, null)];
    expect(await post(seats)).toEqual({ added: 3, withdrawn: 0, turnedAway: [], lessonsOver: [], waits: [] });
    expect(await post(seats)).toEqual({ added: 0, withdrawn: 0, turnedAway: [], lessonsOver: [], waits: [] });
    const places = await yard.placesOn(turnoutId);
    const placeOf = (id: string | null) => places.find((place) => place.volunteerId === id)?.id ?? '';
    await yard.at.places.take(first, placeOf(first.volunteerId));
    await yard.at.places.leave(second, placeOf(second.volunteerId), null);
    expect(await post(seats)).toEqual({ added: 0, withdrawn: 0, turnedAway: [], lessonsOver: [], waits: [] });
    expect((await states()).sort()).toEqual(['left named', 'posted open', 'posted open', 'taken named']);
  });

  it('opens the seat of whom a gate turns away, and of the learner who would then be alone', async () => {
    const sawyer = await yard.skill('sawyer');
    const taskId = await yard.addTask('Saw', { leastAge: 60 }, [{ skillId: sawyer }]);
    const [anselm, ysolde] = [await yard.hand('anselm'), await yard.hand('ysolde')];
    const seats = [
      seat(taskId, anselm.volunteerId, { skillId: sawyer, level: 2 }),
      seat(taskId, ysolde.volunteerId, { skillId: sawyer, level: 1 }),
    ];
    const { turnedAway } = await post(seats);
    expect(turnedAway.map((one) => one.seat.volunteerId)).toEqual([anselm.volunteerId, ysolde.volunteerId]);
    expect(await states()).toEqual(['posted open', 'posted open']);
  });

  it('withdraws what nobody answered when the plan changes', async () => {
    const taskId = await yard.addTask('Carry planks');
    await post([seat(taskId, (await yard.hand('hand-1')).volunteerId)]);
    expect(await post([])).toMatchObject({ added: 0, withdrawn: 1 });
    expect(await states()).toEqual([]);
  });

  it('tells those who look at the roster', async () => {
    const taskId = await yard.addTask('Carry planks');
    const news = yard.at.bus.listen(`roster:${yard.organisationId}`);
    await post([seat(taskId, null)]);
    expect((await news.next()).value).toEqual({ turnoutIds: [turnoutId] });
  });
});
