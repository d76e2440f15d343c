import { AuditEntry } from '@ribband/access';
import { Message, scratchKinds } from '@ribband/platform';
import { FormerLearners1764424000001 } from '../migrations/1764424000001-former-learners.js';
import { TestYard } from '../roster.fixture.js';
import type { SeatToPost } from './reconcile-places.js';

describe.each(scratchKinds())('a learner’s place on %s', (kind) => {
  let yard: TestYard;
  let turnoutId: string;
  let span: { startsAt: number; endsAt: number };
  let sawyer: string;
  let taskId: string;
  let anselm: string;
  let ysolde: string;

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    const hours = { on: '2027-03-06', startTime: '09:00', endTime: '14:00' };
    const turnout = await yard.at.turnouts.add(yard.caller('coordinator'), hours);
    turnoutId = turnout.id;
    span = { startsAt: turnout.startsAt, endsAt: turnout.endsAt };
    sawyer = await yard.skill('sawyer');
    taskId = await yard.addTask('Saw', {}, [{ skillId: sawyer }]);
    [anselm, ysolde] = await Promise.all(
      ['anselm', 'ysolde'].map(async (ref) => (await yard.hand(ref)).volunteerId ?? ''),
    );
  });
  afterEach(() => yard.close());

  const seat = (volunteerId: string, level: number, teacherId: string | null = null): SeatToPost => ({
    ...{ turnoutId, taskId, skillId: sawyer, level, volunteerId, ...span, why: null, teacherId },
  });
  const post = (seats: SeatToPost[]) =>
    yard.at.database.write((manager) =>
      yard.at.posting.post(manager, yard.organisationId, [turnoutId], seats, 'plan_1'),
    );
  const pair = () => post([seat(anselm, 2), seat(ysolde, 1, anselm)]);
  const standing = async () =>
    (await yard.placesOn(turnoutId)).map(({ volunteerId, state, teacherId }) => {
      return { volunteerId, state, teacherId };
    });
  const placeOf = async (id: string) =>
    (await yard.placesOn(turnoutId)).find(({ volunteerId }) => volunteerId === id)?.id ?? '';
  const call = (
    came: string[],
    seats: { volunteerId: string; level: number; taskId?: string }[],
    version = 0,
  ) =>
    yard.at.calling.confirm(
      yard.caller('coordinator'),
      {
        ...{ turnoutId, version, visitors: [], fallen: [], absent: [] },
        present: came.map((volunteerId) => ({ volunteerId, how: 'ticked' as const, arrivedAt: null })),
        seats: seats.map((one) => ({ taskId, skillId: one.level ? sawyer : null, ...span, ...one })),
      },
      null,
    );

  it('falls away when the teacher leaves, and the learner is told why; the teacher’s stands open', async () => {
    await pair();
    await yard.at.places.take(await yard.hand('ysolde'), await placeOf(ysolde));
    await yard.at.places.leave(await yard.hand('anselm'), await placeOf(anselm), null);
    expect((await standing()).sort((a, b) => a.state.localeCompare(b.state))).toEqual([
      { volunteerId: anselm, state: 'left', teacherId: null },
      { volunteerId: null, state: 'posted', teacherId: null },
    ]);
    const told = await yard.at.database.read.findBy(Message, { recipientId: ysolde, kind: 'place-changed' });
    expect(told.map(({ words }) => words).join()).toContain('Your teacher is not on this work any more');
    expect(await yard.at.database.read.countBy(AuditEntry, { operation: 'endLesson' })).toBe(1);
  });

  it('falls away when the week is posted again with the teacher elsewhere, taken or not', async () => {
    await pair();
    await yard.at.places.take(await yard.hand('ysolde'), await placeOf(ysolde));
    expect(await pair()).toMatchObject({ added: 0, withdrawn: 0, lessonsOver: [] });
    const other = await yard.addTask('Saw another', {}, [{ skillId: sawyer }]);
    const posted = await post([{ ...seat(anselm, 2), taskId: other }, seat(ysolde, 1, anselm)]);
    expect(posted.lessonsOver.map(({ volunteerId }) => volunteerId)).toEqual([ysolde]);
    expect(await standing()).toEqual([{ volunteerId: anselm, state: 'posted', teacherId: null }]);
    const told = await yard.at.database.read.findBy(Message, { recipientId: ysolde, kind: 'place-changed' });
    expect(told).toHaveLength(1);
  });

  it('is refused in words to a phone that presses again after it fell away', async () => {
    await pair();
    const [learner, lesson] = [await yard.hand('ysolde'), await placeOf(ysolde)];
    await yard.at.places.take(learner, lesson, null, 'a press');
    await yard.at.places.leave(await yard.hand('anselm'), await placeOf(anselm), null);
    await expect(yard.at.places.take(learner, lesson, null, 'a press')).rejects.toMatchObject({
      refusal: { code: 'PLACE_NOT_OPEN', remedy: 'Look at what else is open.' },
    });
  });

  it('is told where the learner is called to other work or to none, though the teacher is on it', async () => {
    await pair();
    const other = await yard.addTask('Carry');
    const saws = { volunteerId: anselm, level: 2 };
    const carries = { volunteerId: ysolde, level: 0, taskId: other };
    const called = await call([anselm, ysolde], [saws, carries]);
    expect(called.call.turnedAway).toEqual([
      'ysolde does not learn sawyer this time: ysolde is on other work.',
    ]);
  });

  it('without a seat in the call is told as well', async () => {
    await pair();
    const called = await call([anselm, ysolde], [{ volunteerId: anselm, level: 2 }]);
    expect(called.call.turnedAway).toEqual([
      'ysolde does not learn sawyer this time: ysolde is not called to that work.',
    ]);
  });

  it('of before says beside whom after a migration, which leaves others and their wishes alone', async () => {
    const why = 'Second hand: wished to learn sawyer, and learns it beside anselm, over and above the crew.';
    const on = { turnoutId, taskId, skillId: sawyer };
    await yard.addPlace({ ...on, level: 2, volunteerId: anselm });
    await yard.addPlace({ ...on, level: 1, volunteerId: ysolde, state: 'taken', why });
    const hand = (await yard.hand('hand-1')).volunteerId ?? '';
    await yard.addPlace({ ...on, level: 1, volunteerId: hand, why: 'Does it beside anselm.' });
    for (let times = 0; times < 2; times++)
      await yard.at.database.write(async ({ queryRunner }) => {
        if (!queryRunner) throw new Error('a transaction has a runner');
        await new FormerLearners1764424000001().up(queryRunner);
      });
    const byHolder = new Map((await yard.placesOn(turnoutId)).map((place) => [place.volunteerId, place]));
    expect([anselm, ysolde, hand].map((id) => byHolder.get(id)?.teacherId)).toEqual([null, anselm, null]);
    expect(byHolder.get(ysolde)?.why).toBe(
      'Second hand: learns sawyer beside anselm, over and above the crew.',
    );
  });

  it('is nobody else’s when the learner leaves, and is not asked for again', async () => {
    await pair();
    await yard.at.places.leave(await yard.hand('ysolde'), await placeOf(ysolde), null);
    await pair();
    expect((await standing()).filter(({ teacherId }) => teacherId !== null)).toEqual([
      { volunteerId: ysolde, state: 'left', teacherId: anselm },
    ]);
    expect(await standing()).toHaveLength(2);
  });

  it('is posted once, and not at all where a gate keeps the learner away', async () => {
    expect(await pair()).toMatchObject({ added: 2 });
    expect(await pair()).toMatchObject({ added: 0, withdrawn: 0 });
    // Without the teacher the learner would be alone.
    const { turnedAway } = await post([seat(ysolde, 1, anselm)]);
    expect(turnedAway).toHaveLength(1);
    expect(await standing()).toEqual([]);
  });

  it('goes on where both are called to the work, and says why not where the teacher is not here', async () => {
    await pair();
    const both = await call(
      [anselm, ysolde],
      [
        { volunteerId: anselm, level: 2 },
        { volunteerId: ysolde, level: 0 },
      ],
    );
    expect(both.call.turnedAway).toEqual([]);
    expect(await standing()).toContainEqual({ volunteerId: ysolde, state: 'taken', teacherId: anselm });
    const alone = await call([ysolde], [], 1);
    expect(alone.call.turnedAway).toEqual(['ysolde does not learn sawyer this time: anselm is not here.']);
    expect((await standing()).filter(({ teacherId }) => teacherId !== null)).toEqual([]);
  });
});
