import type { Caller } from '@ribband/access';
import { newId, RefusalError, scratchKinds } from '@ribband/platform';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { readRoster } from '../document/read-roster.js';
import { TestYard } from '../roster.fixture.js';
import { AbsenceEntity } from './absence.entity.js';
import type { CallGiven } from './calling.service.js';

describe.each(scratchKinds())('calling a turnout on %s', (kind) => {
  let yard: TestYard;
  let coordinator: Caller;
  let turnoutId: string;
  let span: { startsAt: number; endsAt: number };
  let ids: Record<string, string>;

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    coordinator = yard.caller('coordinator');
    const hours = { startTime: '09:00', endTime: '14:00' };
    turnoutId = (await yard.at.turnouts.add(coordinator, { on: '2027-03-06', ...hours })).id;
    const { startsAt, endsAt } = await yard.turnout('2027-03-06');
    span = { startsAt, endsAt };
    ids = {};
    for (const ref of ['anselm', 'ysolde', 'cass', 'ottoline', 'hand-1', 'hand-2', 'hand-3'])
      ids[ref] = (await yard.hand(ref)).volunteerId ?? '';
  });
  afterEach(() => yard.close());

  const seat = (taskId: string, ref: string, rest: Partial<CallGiven['seats'][number]> = {}) => {
    return { taskId, volunteerId: ids[ref] ?? '', skillId: null, level: 0, ...span, ...rest };
  };
  const given = (came: string[], rest: Partial<CallGiven> = {}): CallGiven => ({
    turnoutId,
    version: 0,
    present: came.map((ref) => ({ volunteerId: ids[ref] ?? '', how: 'ticked', arrivedAt: null })),
    absent: [],
    visitors: [],
    seats: [],
    fallen: [],
    ...rest,
  });
  const confirm = (call: CallGiven, key: string | null = null) =>
    yard.at.calling.confirm(coordinator, call, key);
  const code = (work: Promise<unknown>) =>
    work.then(
      () => 'yes',
      (error: unknown) => {
        if (error instanceof RefusalError) return error.refusal.code;
        throw error;
      },
    );
  const standing = async () =>
    (await yard.placesOn(turnoutId)).map(({ state, volunteerId, taskId }) => [state, volunteerId, taskId]);

  it('puts the roster of the morning in the place of the posted one, and keeps what stood', async () => {
    const [carry, sort] = [await yard.addTask('Carry planks'), await yard.addTask('Sort nails')];
    await yard.addPlace({ turnoutId, taskId: carry, volunteerId: ids['hand-1'], state: 'taken' });
    await yard.addPlace({ turnoutId, taskId: carry, volunteerId: ids['hand-2'], state: 'taken' });
    await yard.addPlace({ turnoutId, taskId: sort });
    const { call } = await confirm(
      given(['hand-1', 'hand-3'], {
        absent: [{ volunteerId: ids['hand-2'] ?? '', saidSo: false }],
        seats: [seat(sort, 'hand-1'), seat(sort, 'hand-3')],
        fallen: [{ taskId: carry, why: 'It takes two.' }],
        visitors: ['Somebody’s cousin'],
      }),
    );
    expect((await standing()).sort()).toEqual(
      [
        ['left', ids['hand-2'], carry],
        ['taken', ids['hand-1'], sort],
        ['taken', ids['hand-3'], sort],
      ].sort(),
    );
    expect(call).toMatchObject({ version: 1, visitors: ['Somebody’s cousin'], turnedAway: [] });
    expect(call.replaced).toHaveLength(3);
    const told = await yard.at.calling.told(coordinator, turnoutId);
    expect(told).toMatchObject({ absentIds: [ids['hand-2']], fallen: [{ why: 'It takes two.' }] });
    expect(told?.presentIds.sort()).toEqual([ids['hand-1'], ids['hand-3']].sort());
  });

  it('asks every gate again: who learns beside somebody who did not come is not let on the saw', async () => {
    const sawyer = await yard.skill('sawyer');
    const saw = await yard.addTask('Saw', { hazards: ['machine'] }, [{ skillId: sawyer }]);
    const lead = seat(saw, 'anselm', { skillId: sawyer, level: 2 });
    const learner = seat(saw, 'ysolde', { skillId: sawyer, level: 1 });
    const both = await confirm(given(['anselm', 'ysolde'], { seats: [lead, learner] }));
    expect(both.call.turnedAway).toEqual([]);
    const alone = await confirm(given(['ysolde'], { version: 1, seats: [learner] }));
    expect(alone.call.turnedAway).toHaveLength(1);
    expect(alone.call.fallen).toHaveLength(1);
    expect(await standing()).toEqual([]);
  });

  it('gives nobody under 18 a place without two adults there, and no crew starts below its least', async () => {
    const carry = await yard.addTask('Carry planks', { crewMin: 2 });
    const called = await confirm(
      given(['cass', 'hand-1'], { seats: [seat(carry, 'cass'), seat(carry, 'hand-1')] }),
    );
    expect(called.call.turnedAway.join(' ')).toMatch(/two adults/);
    expect(called.call.turnedAway.join(' ')).toMatch(/It takes 2 people at once/);
    expect(await standing()).toEqual([]);
    // That they came is kept whatever becomes of their places.
    expect(await yard.at.database.read.count(AttendanceEntity)).toBe(2);
  });

  it('stops on the morning what was only a caution before: permit, tag, first aid, and somebody alone', async () => {
    const scrape = await yard.addTask('Scrape paint', { hazards: ['lead'] });
    const aloft = await yard.addTask('Dig out bungs', { hazards: ['fall'] });
    const carry = await yard.addTask('Carry planks');
    const place = await yard.addPlace({ turnoutId, taskId: scrape });
    const taken = await yard.at.places.take(await yard.hand('hand-2'), place.id);
    expect(taken.state).toBe('taken');
    const called = async (came: string[], rest: Partial<CallGiven>) =>
      (await confirm(given(came, rest))).call;
    const both = await called(['hand-1', 'hand-2', 'hand-3'], {
      seats: [seat(scrape, 'hand-2'), seat(aloft, 'hand-3'), seat(carry, 'hand-1')],
    });
    expect(both.turnedAway).toHaveLength(2);
    expect(both.turnedAway.join(' ')).toMatch(/No permit for work in lead paint.*No staging/);
    expect(both.fallen.map(({ taskId }) => taskId).sort()).toEqual([scrape, aloft].sort());
    expect(await standing()).toEqual([['taken', ids['hand-1'], carry]]);
    const bare = await called(['hand-2', 'hand-3'], { version: 1, seats: [seat(carry, 'hand-2')] });
    expect(bare.turnedAway.join(' ')).toMatch(/Nobody with a first-aid card/);
    const alone = await called(['hand-1'], { version: 2, seats: [seat(carry, 'hand-1')] });
    expect(alone.turnedAway.join(' ')).toMatch(/alone/);
    // Who has the card need not have a place.
    const aided = await called(['hand-1', 'hand-3'], { version: 3, seats: [seat(carry, 'hand-3')] });
    expect(aided.turnedAway).toEqual([]);
  });

  it('goes on without a first-aid card for those for whom the director has set that aside, and nobody else', async () => {
    const carry = await yard.addTask('Carry planks');
    const at = { turnoutId, taskId: carry, volunteerId: ids['hand-2'] ?? '' };
    await yard.at.overrides.grant(
      yard.caller('director'),
      at,
      'first-aider',
      'The clinic is across the road, three minutes by foot.',
    );
    const seats = [seat(carry, 'hand-2'), seat(carry, 'hand-3')];
    const { call } = await confirm(given(['hand-2', 'hand-3'], { seats }));
    expect(call.turnedAway).toHaveLength(1);
    expect(await standing()).toEqual([['taken', ids['hand-2'], carry]]);
  });

  it('lets somebody who has not signed in take no place at a turnout that goes on', async () => {
    const carry = await yard.addTask('Carry planks', { crewMin: 2 });
    const place = await yard.addPlace({ turnoutId, taskId: carry });
    const { database, clock } = yard.at;
    await database.write((manager) => clock.set(manager, yard.organisationId, span.startsAt + 3_600_000));
    await confirm(given(['hand-1', 'hand-3']));
    const late = await yard.addPlace({ turnoutId, taskId: carry });
    const take = async (ref: string) => code(yard.at.places.take(await yard.hand(ref), late.id));
    expect(await yard.at.open.permittedTo(await yard.hand('hand-2'))).toEqual([]);
    expect(await take('hand-2')).toBe('GATE_CLOSED');
    expect(await take('hand-3')).toBe('yes');
    expect(place.id).not.toBe(late.id);
  });

  it('is called again when somebody comes late: absent before, there now, arrived when they arrived', async () => {
    const carry = await yard.addTask('Carry planks');
    await yard.addPlace({ turnoutId, taskId: carry, volunteerId: ids['hand-2'], state: 'taken' });
    const away = { volunteerId: ids['hand-2'] ?? '', saidSo: true };
    await confirm(given(['hand-1'], { absent: [away], seats: [seat(carry, 'hand-1')] }));
    expect(await yard.at.database.read.findBy(AbsenceEntity, { turnoutId })).toMatchObject([
      { saidSo: true },
    ]);
    expect(await code(confirm(given(['hand-1', 'hand-2'])))).toBe('CHANGED_MEANWHILE');
    const late = given(['hand-1', 'hand-2'], {
      version: 1,
      seats: [seat(carry, 'hand-1'), seat(carry, 'hand-2', { startsAt: span.startsAt + 3_600_000 })],
    });
    expect((await confirm(late)).call.version).toBe(2);
    expect(await yard.at.database.read.count(AbsenceEntity)).toBe(0);
    expect(await yard.at.database.read.count(AttendanceEntity)).toBe(2);
  });

  it('counts nobody absent who came and went home before it was called again', async () => {
    const carry = await yard.addTask('Carry planks');
    await confirm(given(['hand-1', 'hand-2'], { seats: [seat(carry, 'hand-1'), seat(carry, 'hand-2')] }));
    const { database } = yard.at;
    await database.write((manager) =>
      manager.update(AttendanceEntity, { volunteerId: ids['hand-2'] }, { leftAt: span.startsAt + 3_600_000 }),
    );
    expect((await yard.at.calling.told(coordinator, turnoutId))?.presentIds).toEqual([ids['hand-1']]);
    const away = { volunteerId: ids['hand-2'] ?? '', saidSo: false };
    await confirm(given(['hand-1'], { version: 1, absent: [away], seats: [seat(carry, 'hand-1')] }));
    expect(await database.read.count(AbsenceEntity)).toBe(0);
    expect(await database.read.count(AttendanceEntity)).toBe(2);
  });

  it('answers a kept morning the same however often the phone sends it', async () => {
    const carry = await yard.addTask('Carry planks');
    const morning = given(['hand-1', 'hand-2'], { seats: [seat(carry, 'hand-1')] });
    const calls = await Promise.all([confirm(morning, 'phone-1'), confirm(morning, 'phone-1')]);
    expect(calls.map(({ id }) => id)).toEqual([calls[0].id, calls[0].id]);
    expect(await standing()).toHaveLength(1);
  });

  it('keeps no words that say nothing or never end', async () => {
    const taskId = await yard.addTask('Carry planks');
    const fallen = (why: string) => ({ fallen: [{ taskId, why }] });
    for (const [rest, field] of [
      [{ visitors: [' '] }, 'input.visitors'],
      [{ visitors: ['x'.repeat(201)] }, 'input.visitors'],
      [{ visitors: Array.from({ length: 51 }, (_, i) => `visitor ${i}`) }, 'input.visitors'],
      [fallen(''), 'input.fallen'],
      [fallen('x'.repeat(2001)), 'input.fallen'],
    ] as const)
      await expect(confirm(given(['hand-1'], rest as Partial<CallGiven>))).rejects.toMatchObject({
        refusal: { code: 'BAD_INPUT', field },
      });
    expect(await yard.at.database.read.count(AttendanceEntity)).toBe(0);
    const { call } = await confirm(given(['hand-1'], { visitors: [' a neighbour '] }));
    expect(call.visitors).toEqual(['a neighbour']);
  });

  it('names nobody, no work and no skill that is not there, and keeps nothing then', async () => {
    const carry = await yard.addTask('Carry planks');
    const of = (rest: Partial<CallGiven>) => confirm(given(['hand-1'], rest));
    const seated = (rest: Partial<CallGiven['seats'][number]>) =>
      of({ seats: [seat(carry, 'hand-1', rest)] });
    for (const [asked, code, field] of [
      [() => of({ absent: [{ volunteerId: 'volunteer_zz', saidSo: false }] }), 'NOT_FOUND', 'input.absent'],
      [() => of({ seats: [seat('task_zz', 'hand-1')] }), 'NOT_FOUND', 'input.seats'],
      [() => of({ fallen: [{ taskId: 'task_zz', why: 'It rains.' }] }), 'NOT_FOUND', 'input.fallen'],
      [() => seated({ skillId: 'skill_zz', level: 1 }), 'NOT_FOUND', 'input.seats'],
      [() => seated({ level: -5 }), 'BAD_INPUT', 'input.seats'],
      [() => seated({ level: 5 }), 'BAD_INPUT', 'input.seats'],
    ] as const)
      await expect(asked()).rejects.toMatchObject({ refusal: { code, field } });
    expect(await yard.at.database.read.count(AttendanceEntity)).toBe(0);
  });

  it('has people arrive at the turnout, and none that are still to come', async () => {
    const { database, clock } = yard.at;
    const hour = 3_600_000;
    await database.write((manager) => clock.set(manager, yard.organisationId, span.startsAt + hour));
    const at = (arrivedAt: number) =>
      confirm({ ...given([]), present: [{ volunteerId: ids['hand-1'] ?? '', how: 'ticked', arrivedAt }] });
    for (const wrong of [0, span.startsAt - 4 * hour, span.startsAt + 2 * hour])
      await expect(at(wrong)).rejects.toMatchObject({
        refusal: { code: 'BAD_INPUT', field: 'input.present' },
      });
    await at(span.startsAt - hour);
    expect(await database.read.find(AttendanceEntity)).toMatchObject([{ arrivedAt: span.startsAt - hour }]);
  });

  it('comes out in a yard document without what an old call named and nobody knows', async () => {
    const { database } = yard.at;
    const { organisationId } = yard;
    const carry = await yard.addTask('Carry planks');
    await confirm(given(['hand-1'], { absent: [{ volunteerId: ids['hand-2'] ?? '', saidSo: true }] }));
    await yard.addPlace({ turnoutId, taskId: carry, skillId: 'skill_zz', level: 1 });
    await yard.addPlace({ turnoutId, taskId: carry, level: -5 });
    await yard.addPlace({ turnoutId, taskId: carry, level: 0 });
    const row = { organisationId, turnoutId, volunteerId: 'volunteer_zz', saidSo: false };
    await database.write((manager) => manager.insert(AbsenceEntity, { ...row, id: newId('absence') }));
    const { places, turnoutBook } = await readRoster(database.read, organisationId, 'America/Los_Angeles');
    expect(places).toMatchObject([{ task: carry, level: null }]);
    expect(turnoutBook?.absences).toEqual([
      { on: '2027-03-06', startTime: '09:00', volunteer: 'hand-2', saidSo: true },
    ]);
  });

  it('refuses what can’t be: another day, two places at once, somebody who is not there', async () => {
    const carry = await yard.addTask('Carry planks');
    const later = await yard.at.turnouts.add(coordinator, {
      on: '2027-03-13',
      startTime: '09:00',
      endTime: '14:00',
    });
    expect(await code(confirm({ ...given(['hand-1']), turnoutId: later.id }))).toBe('BAD_INPUT');
    const twice = [seat(carry, 'hand-1'), seat(await yard.addTask('Sort nails'), 'hand-1')];
    expect(await code(confirm(given(['hand-1'], { seats: twice })))).toBe('ALREADY_ELSEWHERE');
    expect(await code(confirm(given(['hand-1'], { seats: [seat(carry, 'hand-2')] })))).toBe('BAD_INPUT');
    expect(await code(yard.at.calling.confirm(await yard.hand('hand-1'), given(['hand-1']), null))).toBe(
      'NOT_PERMITTED',
    );
    await yard.at.turnouts.cancel(coordinator, turnoutId, 1, 'storm');
    expect(await code(confirm(given(['hand-1'])))).toBe('TURNOUT_OVER');
    expect(await yard.at.database.read.count(AttendanceEntity)).toBe(0);
  });
});
