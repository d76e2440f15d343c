import { AuditEntry, type Caller } from '@ribband/access';
import { RefusalError, type RefusalCode, scratchKinds } from '@ribband/platform';
import { noteArrival } from '../attendance/attendance.records.js';
import { TestYard } from '../roster.fixture.js';
import type { PlaceEntity } from './place.entity.js';

/** The code of the refusal, or 'yes'. */
async function answer(work: Promise<unknown>): Promise<RefusalCode | 'yes'> {
  try {
    await work;
    return 'yes';
  } catch (error) {
    if (error instanceof RefusalError) return error.refusal.code;
    throw error;
  }
}

describe.each(scratchKinds())('places on %s', (kind) => {
  let yard: TestYard;
  let coordinator: Caller;
  let saturday: string;
  let sunday: string;

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    coordinator = yard.caller('coordinator');
    const hours = { startTime: '09:00', endTime: '14:00' };
    saturday = (await yard.at.turnouts.add(coordinator, { on: '2027-03-06', ...hours })).id;
    sunday = (await yard.at.turnouts.add(coordinator, { on: '2027-03-14', ...hours })).id;
  });
  afterEach(() => yard.close());

  it('go to exactly one of thirty who press at once, through two doors where the database has them', async () => {
    const taskId = await yard.addTask('Carry planks');
    const place = await yard.addPlace({ turnoutId: saturday, taskId });
    const second = kind === 'postgres' ? await yard.connect() : yard.at;
    const crowd = await Promise.all(Array.from({ length: 30 }, (_, i) => yard.hand(`hand-${i + 1}`)));
    const answers = await Promise.all(
      crowd.map((caller, i) => answer((i % 2 ? yard.at : second).places.take(caller, place.id))),
    );
    expect(answers.filter((one) => one === 'yes')).toHaveLength(1);
    expect(answers.filter((one) => one === 'PLACE_TAKEN')).toHaveLength(29);
    const winner = crowd[answers.indexOf('yes')];
    const [row] = await yard.placesOn(saturday);
    expect(row).toMatchObject({ state: 'taken', volunteerId: winner.volunteerId });
  });

  it('answer the same to the same press, however often it comes and whatever happened since', async () => {
    const taskId = await yard.addTask('Carry planks');
    const [free, gone] = [
      await yard.addPlace({ turnoutId: saturday, taskId }),
      await yard.addPlace({ turnoutId: sunday, taskId }),
    ];
    const [first, second] = [await yard.hand('hand-1'), await yard.hand('hand-2')];
    await yard.at.places.take(second, gone.id);
    const take = (place: PlaceEntity, key: string) => answer(yard.at.places.take(first, place.id, null, key));
    expect(await Promise.all([take(free, 'a'), take(free, 'a'), take(gone, 'b')])).toEqual([
      'yes',
      'yes',
      'PLACE_TAKEN',
    ]);
    await yard.at.places.leave(second, gone.id, null);
    const entries = () => yard.at.database.read.count(AuditEntry);
    const before = await entries();
    expect(await take(gone, 'b')).toBe('PLACE_TAKEN');
    expect(await take(free, 'a')).toBe('yes');
    expect(await take(gone, 'a')).toBe('BAD_INPUT');
    expect(await entries()).toBe(before);
    // Somebody else's key is their own.
    expect(await answer(yard.at.places.take(second, free.id, null, 'a'))).toBe('PLACE_TAKEN');
  });

  it('are never two at once for one person, also when both are pressed together', async () => {
    const taskId = await yard.addTask('Carry planks');
    const both = [
      await yard.addPlace({ turnoutId: saturday, taskId }),
      await yard.addPlace({ turnoutId: saturday, taskId: await yard.addTask('Sort nails') }),
    ];
    const second = kind === 'postgres' ? await yard.connect() : yard.at;
    const hand = await yard.hand('hand-1');
    const answers = await Promise.all(
      both.map((place, i) => answer((i ? second : yard.at).places.take(hand, place.id))),
    );
    expect(answers.sort()).toEqual(['ALREADY_ELSEWHERE', 'yes']);
  });

  it('can be two one after the other on the same day', async () => {
    const taskId = await yard.addTask('Carry planks');
    const { startsAt, endsAt } = await yard.turnout('2027-03-06');
    const noon = startsAt + 3 * 3_600_000;
    const morning = await yard.addPlace({ turnoutId: saturday, taskId, endsAt: noon });
    const afternoon = await yard.addPlace({ turnoutId: saturday, taskId, startsAt: noon, endsAt });
    const hand = await yard.hand('hand-1');
    expect(await answer(yard.at.places.take(hand, morning.id))).toBe('yes');
    expect(await answer(yard.at.places.take(hand, afternoon.id))).toBe('yes');
    expect((await yard.at.places.mine(hand)).map((place) => place.id)).toEqual([morning.id, afternoon.id]);
  });

  it('ask for the skill, the card on the day, the age and company again when they are taken', async () => {
    const sawyer = await yard.skill('sawyer');
    const saw = await yard.addTask('Saw', { hazards: ['machine'] }, [{ skillId: sawyer }]);
    const carry = await yard.addTask('Carry planks');
    const take = async (ref: string, place: PlaceEntity) =>
      answer(yard.at.places.take(await yard.hand(ref), place.id));
    const skilled = await yard.addPlace({ turnoutId: saturday, taskId: saw, skillId: sawyer, level: 2 });
    expect(await take('hand-1', skilled)).toBe('SKILL_MISSING');
    const learning = await yard.addPlace({ turnoutId: saturday, taskId: saw, skillId: sawyer, level: 1 });
    expect(await take('ysolde', learning)).toBe('NEEDS_SUPERVISOR');
    expect(await take('anselm', skilled)).toBe('yes');
    expect(await take('ysolde', learning)).toBe('yes');
    const beside = await yard.addPlace({ turnoutId: saturday, taskId: saw });
    expect(await take('cass', beside)).toBe('TOO_YOUNG');
    const alone = await yard.addPlace({ turnoutId: saturday, taskId: carry });
    expect(await take('cass', alone)).toBe('NEEDS_SUPERVISOR');
    await yard.addPlace({
      turnoutId: saturday,
      taskId: carry,
      state: 'taken',
      volunteerId: (await yard.hand('hand-2')).volunteerId,
    });
    expect(await take('cass', alone)).toBe('yes');
  });

  it('count for company only who has signed in, once the turnout is under way and a roll is kept', async () => {
    const taskId = await yard.addTask('Carry planks');
    const { organisationId, at } = yard;
    const { startsAt: arrivedAt } = await yard.turnout('2027-03-06');
    const arrive = async (ref: string) => {
      const volunteerId = (await yard.hand(ref)).volunteerId ?? '';
      const came = { organisationId, turnoutId: saturday, volunteerId, arrivedAt, enteredBy: 'coordinator' };
      await at.database.write((manager) => noteArrival(manager, { ...came, how: 'ticked' }));
    };
    const mate = await yard.hand('hand-2');
    const place = await yard.addPlace({ turnoutId: saturday, taskId });
    await yard.addPlace({ turnoutId: saturday, taskId, state: 'taken', volunteerId: mate.volunteerId });
    await at.database.write((manager) => at.clock.set(manager, organisationId, arrivedAt + 1_800_000));
    for (const ref of ['cass', 'anselm', 'hand-1']) await arrive(ref);
    const cass = await yard.hand('cass');
    expect(await answer(at.places.take(cass, place.id))).toBe('NEEDS_SUPERVISOR');
    expect((await at.open.permittedTo(cass)).map((one) => one.place.id)).toEqual([]);
    await arrive('hand-2');
    expect(await answer(at.places.take(cass, place.id))).toBe('yes');
  });

  it('ask for a card that counts on the day of the turnout, not on the day of asking', async () => {
    const { read } = yard.at.database;
    const kinds = await read.query('SELECT id FROM card_kind');
    const taskId = await yard.addTask('Watch the fire', { cardKindIds: [kinds[0].id] });
    const ottoline = await yard.hand('ottoline');
    const soon = await yard.addPlace({ turnoutId: saturday, taskId });
    const later = await yard.addPlace({ turnoutId: sunday, taskId });
    expect(await answer(yard.at.places.take(ottoline, soon.id))).toBe('yes');
    expect(await answer(yard.at.places.take(ottoline, later.id))).toBe('CARD_EXPIRED');
    expect(await answer(yard.at.places.take(await yard.hand('hand-2'), later.id))).toBe('CARD_MISSING');
  });

  it('stand open again when they are left, and who left stays on record', async () => {
    const taskId = await yard.addTask('Carry planks');
    const place = await yard.addPlace({ turnoutId: saturday, taskId });
    const [first, second] = [await yard.hand('hand-1'), await yard.hand('hand-2')];
    await yard.at.places.take(first, place.id);
    await yard.at.places.leave(first, place.id, null);
    const rows = await yard.placesOn(saturday);
    expect(rows.map((row) => [row.state, row.volunteerId])).toEqual([
      ['left', first.volunteerId],
      ['posted', null],
    ]);
    expect(await answer(yard.at.places.take(second, place.id))).toBe('PLACE_NOT_OPEN');
    expect(await answer(yard.at.places.take(second, rows[1]?.id ?? ''))).toBe('yes');
    expect(await answer(yard.at.places.leave(first, rows[1]?.id ?? '', null))).toBe('PLACE_NOT_OPEN');
  });

  it('open one place, not two, when somebody presses "I can’t come" twice at once', async () => {
    const taskId = await yard.addTask('Carry planks');
    const place = await yard.addPlace({ turnoutId: saturday, taskId });
    const hand = await yard.hand('hand-1');
    await yard.at.places.take(hand, place.id);
    await Promise.all([
      yard.at.places.leave(hand, place.id, null),
      yard.at.places.leave(hand, place.id, null),
    ]);
    expect((await yard.placesOn(saturday)).filter((row) => row.state === 'posted')).toHaveLength(1);
  });

  it('are taken by the coordinator for others, and by nobody else for others', async () => {
    const taskId = await yard.addTask('Carry planks');
    const place = await yard.addPlace({ turnoutId: saturday, taskId });
    const petra = (await yard.hand('hand-3')).volunteerId;
    expect(await answer(yard.at.places.take(await yard.hand('hand-1'), place.id, petra))).toBe(
      'NOT_PERMITTED',
    );
    expect(await answer(yard.at.places.take(coordinator, place.id))).toBe('NOT_PERMITTED');
    expect(await answer(yard.at.places.take(coordinator, place.id, petra))).toBe('yes');
    expect(await answer(yard.at.places.leave(coordinator, place.id, 'rang up', petra))).toBe('yes');
  });

  it('can’t be taken, and are not offered, on work that is held or was dropped', async () => {
    const [hand, other] = [await yard.hand('hand-1'), await yard.hand('hand-2')];
    const held = await yard.addTask('Carry planks', { held: 'the shipwright looks at it first' });
    const dropped = await yard.addTask('Sort nails', { droppedAt: 1, dropReason: 'not needed' });
    for (const taskId of [held, dropped]) {
      const place = await yard.addPlace({ turnoutId: saturday, taskId });
      expect(await answer(yard.at.places.take(hand, place.id))).toBe('TASK_NOT_READY');
    }
    expect(await yard.at.open.permittedTo(other)).toEqual([]);
  });

  it('can’t be taken once the turnout was called off', async () => {
    const taskId = await yard.addTask('Carry planks');
    const place = await yard.addPlace({ turnoutId: saturday, taskId });
    await yard.at.turnouts.cancel(coordinator, saturday, 1, 'storm');
    expect(await answer(yard.at.places.take(await yard.hand('hand-1'), place.id))).toBe('TURNOUT_OVER');
    expect(await yard.at.open.permittedTo(await yard.hand('hand-1'))).toEqual([]);
  });

  it('are left with a reason of some words, or with none', async () => {
    const taskId = await yard.addTask('Carry planks');
    const hand = await yard.hand('hand-1');
    const leave = async (on: string, reason: string) => {
      const place = await yard.addPlace({ turnoutId: on, taskId });
      await yard.at.places.take(hand, place.id);
      return yard.at.places.leave(hand, place.id, reason);
    };
    expect((await leave(saturday, ' ')).leftReason).toBeNull();
    expect((await leave(saturday, ' a cold ')).leftReason).toBe('a cold');
    await expect(leave(sunday, 'x'.repeat(501))).rejects.toMatchObject({
      refusal: { code: 'BAD_INPUT', field: 'reason' },
    });
    expect((await yard.placesOn(sunday)).map(({ state }) => state)).toEqual(['taken']);
  });

  it('are offered only to those who may take them, soonest first, with company and cautions', async () => {
    const sawyer = await yard.skill('sawyer');
    const saw = await yard.addTask('Saw', { hazards: ['machine'] }, [{ skillId: sawyer }]);
    const carry = await yard.addTask('Carry planks');
    const taken = await yard.addPlace({ turnoutId: saturday, taskId: carry });
    await yard.at.places.take(await yard.hand('hand-2'), taken.id);
    const later = await yard.addPlace({ turnoutId: sunday, taskId: carry });
    const soon = await yard.addPlace({ turnoutId: saturday, taskId: carry });
    await yard.addPlace({ turnoutId: saturday, taskId: carry });
    const skilled = await yard.addPlace({ turnoutId: saturday, taskId: saw, skillId: sawyer, level: 2 });
    const offered = await yard.at.open.permittedTo(await yard.hand('hand-1'));
    expect(offered.map(({ place }) => place.id)).toEqual([soon.id, later.id]);
    expect(offered[0]?.alongside).toEqual([{ volunteerId: expect.any(String), name: 'hand-2' }]);
    const forAnselm = await yard.at.open.permittedTo(await yard.hand('anselm'));
    const sawing = forAnselm.find(({ place }) => place.id === skilled.id);
    expect(sawing?.cautions.length).toBeGreaterThan(0);
    expect(await yard.at.open.permittedTo(await yard.hand('cass'))).toEqual([]);
  });
});
