import { CardKind, Skill } from '@ribband/crew';
import { localToInstant, scratchKinds, YardClock } from '@ribband/platform';
import { Task } from '@ribband/repair';
import {
  AllHands,
  AllHandsRoles,
  Calling,
  Feeds,
  PlaceEntity,
  Places,
  TurnoutEntity,
  Turnouts,
} from '@ribband/roster';
import { MorningSheets } from '../call/morning-sheets.service.js';
import { Mornings } from '../call/mornings.service.js';
import { answer, TestHouse } from '../planning.fixture.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import { WatchProposals } from './watch-proposals.service.js';

/** The small yard without places, with a relaunch, and people of whom one has the skill and one the card. */
function yardWithLaunch() {
  const yard = { ...smallYard(), places: [], tallies: [] };
  const [pulling] = yard.tasks;
  yard.skills.push({ ref: 'rigging', name: 'rigging' });
  yard.tasks.push({
    ...pulling,
    ...{
      ref: 'lift-her',
      title: 'Lift her into the water',
      crew: { min: 2, efficient: 4, max: 9 },
      opens: [],
    },
    seats: [{ skill: 'rigging', level: 2, count: 1, cards: [] }],
    ...{ hazards: ['crush'], cards: [], leastAge: 18, cautions: ['The yard moves her.'] },
  });
  const daily = { rule: 'FREQ=DAILY', startsOn: '2027-03-01', untilOn: null, from: null, to: null };
  const card = { kind: 'first-aid', issuer: 'Harbor training', expiresOn: '2027-12-31' };
  yard.volunteers = yard.volunteers.map((one) => ({ ...one, availability: { rules: [], exceptions: [] } }));
  for (const ref of ['rigger', 'aider', 'hand-1', 'hand-2'])
    yard.volunteers.push({
      ...yard.volunteers[1],
      ...{ ref, name: ref, bornOn: '1980-02-02', availability: { rules: [daily], exceptions: [] } },
      skills: ref === 'rigger' ? [{ skill: 'rigging', level: 2, signedOffBy: null }] : [],
      cards: ref === 'aider' ? [card] : [],
    });
  const minor = yard.volunteers.find(({ ref }) => ref === 'cass-underhay');
  Object.assign(minor ?? {}, { availability: { rules: [daily], exceptions: [] } });
  return yard;
}

describe.each(scratchKinds())('an all-hands day, on %s', (kind) => {
  let house: TestHouse;
  let layOn: (change?: object) => Promise<TurnoutEntity>;
  let cardKindId: string;
  beforeEach(async () => {
    house = await TestHouse.open(kind, 'ask');
    const read = await house.app.get(YardBook).import(house.caller('director'), yardWithLaunch(), false);
    if (Array.isArray(read)) throw new Error(JSON.stringify(read));
    const { organisationId } = house;
    const task = await house.database.read.findOneByOrFail(Task, { organisationId, ref: 'lift-her' });
    const skill = await house.database.read.findOneByOrFail(Skill, { organisationId, ref: 'rigging' });
    const firstAid = await house.database.read.findOneByOrFail(CardKind, {
      organisationId,
      ref: 'first-aid',
    });
    cardKindId = firstAid.id;
    const hand = { skillId: null, level: 0, cardKindId: null };
    const usual = {
      ...{ taskId: task.id, title: 'Launch day', on: '2027-03-12', startTime: '07:00', endTime: '11:00' },
      roles: [
        { ...hand, role: 'speaks with the lift', count: 1, skillId: skill.id, level: 2 },
        { ...hand, role: 'line handler', count: 2 },
        { ...hand, role: 'first aider', count: 1, cardKindId },
      ],
    };
    layOn = (change = {}) =>
      house.app.get(AllHands).layOn(house.caller('coordinator'), { ...usual, ...change });
  });
  afterEach(() => house.close());

  const coordinator = () => house.caller('coordinator');
  const proposals = () => house.app.get(WatchProposals);
  const placesOf = ({ id }: TurnoutEntity) =>
    house.database.read.find(PlaceEntity, { where: { turnoutId: id }, order: { id: 'ASC' } });
  const placeFor = async (turnout: TurnoutEntity, role: string): Promise<string> =>
    (await placesOf(turnout)).find((one) => one.role === role && one.state === 'posted')?.id ?? '';
  const take = async (ref: string, placeId: string) =>
    answer(house.app.get(Places).take(await house.volunteer(ref), placeId));
  const proposed = async () => {
    const [day] = await proposals().propose(coordinator(), undefined, 'all-hands');
    return new Map(
      ['speaks with the lift', 'line handler', 'first aider'].map((role) => [
        role,
        day.places.flatMap((one) => (one.place.role === role ? [one.hand?.name ?? null] : [])).sort(),
      ]),
    );
  };
  const postAll = async () => {
    const [day] = await proposals().propose(coordinator(), undefined, 'all-hands');
    const wanted = day.places.map(({ place, hand }) => {
      return { placeId: place.id, volunteerId: hand?.id ?? null };
    });
    return proposals().post(coordinator(), wanted, 'all-hands');
  };

  it('is laid on with its roles, each given to who may have it: the skill and the card first', async () => {
    const day = await layOn();
    expect(day).toMatchObject({ kind: 'all-hands', note: 'Launch day' });
    expect((await placesOf(day)).map(({ role }) => role)).toEqual([
      ...['speaks with the lift', 'line handler', 'line handler', 'first aider'],
    ]);
    expect(await proposed()).toEqual(
      new Map([
        ['speaks with the lift', ['rigger']],
        ['line handler', ['hand-1', 'hand-2']],
        ['first aider', ['aider']],
      ]),
    );
    expect((await postAll()).turnedAway).toEqual([]);
    const once = await placesOf(day);
    expect(once.every(({ volunteerId }) => volunteerId !== null)).toBe(true);
    await postAll();
    expect(await placesOf(day)).toEqual(once);
    const told = await house.database.read.query(`SELECT words FROM message WHERE kind = 'roster-posted'`);
    expect(told).toHaveLength(4);
    expect(JSON.stringify(told)).toContain('Lift her into the water (line handler)');
  });

  it('has roles that are taken and left like any place, by the gates of the work and of the role', async () => {
    const day = await layOn();
    expect(await take('hand-1', await placeFor(day, 'first aider'))).toBe('CARD_MISSING');
    expect(await take('hand-1', await placeFor(day, 'speaks with the lift'))).toBe('SKILL_MISSING');
    expect(await take('cass-underhay', await placeFor(day, 'line handler'))).toBe('TOO_YOUNG');
    const held = await placeFor(day, 'first aider');
    expect(await take('aider', held)).toBe('yes');
    expect(await take('aider', await placeFor(day, 'line handler'))).toBe('ALREADY_ELSEWHERE');
    const aider = await house.volunteer('aider');
    const feeds = house.app.get(Feeds);
    const token = (await feeds.make(aider)).replace(/^.*[/]|[.]ics$/gu, '');
    expect((await feeds.serve(token))?.text).toContain('SUMMARY:Lift her into the water (first aider)');
    await house.app.get(Places).leave(aider, held, null);
    const open = (await placesOf(day)).filter(
      ({ role, state }) => role === 'first aider' && state !== 'left',
    );
    expect(open).toMatchObject([{ state: 'posted', volunteerId: null, cardKindId }]);
  });

  it('seats nobody who is at a turnout then, nor lets them take both', async () => {
    const turnouts = house.app.get(Turnouts);
    const turnout = await turnouts.add(coordinator(), {
      on: '2027-03-12',
      startTime: '09:00',
      endTime: '14:00',
    });
    const day = await layOn();
    const [role] = await placesOf(day);
    const { organisationId, startsAt, endsAt, id: turnoutId } = turnout;
    await house.database.write((manager) =>
      manager.insert(PlaceEntity, {
        ...role,
        ...{ id: 'place_besides', organisationId, turnoutId, startsAt, endsAt, role: null },
      }),
    );
    expect(await take('rigger', 'place_besides')).toBe('yes');
    expect(await take('rigger', role.id)).toBe('ALREADY_ELSEWHERE');
    expect((await proposed()).get('speaks with the lift')).toEqual([null]);
  });

  it('has its roles changed: who said yes stays, fewer go from the last, and who loses a place is told', async () => {
    const day = await layOn();
    const roles = house.app.get(AllHandsRoles);
    for (const [ref, role] of [
      ...[
        ['hand-2', 'line handler'],
        ['rigger', 'line handler'],
        ['aider', 'first aider'],
      ],
    ] as const)
      expect(await take(ref, await placeFor(day, role))).toBe('yes');
    const hand = { skillId: null, level: 0, cardKindId: null };
    const [lift, lines, aid] = await roles.of(coordinator(), day.id);
    expect([lift, lines, aid].map(({ role, count, held }) => [role, count, held])).toEqual([
      ...[
        ['speaks with the lift', 1, 0],
        ['line handler', 2, 2],
        ['first aider', 1, 1],
      ],
    ]);
    const change = (wanted: Parameters<AllHandsRoles['change']>[3], version = day.version) =>
      roles.change(coordinator(), day.id, version, wanted);
    const fewer = [
      { ...hand, was: 'line handler', role: 'bow line', count: 1 },
      { ...hand, was: 'first aider', role: 'first aider', count: 2, cardKindId },
      { ...hand, was: null, role: 'fenders', count: 1 },
    ];
    expect(await answer(change([{ ...fewer[0], was: 'cook' }]))).toBe('BAD_INPUT roles[0].was');
    expect(await answer(change([fewer[0], { ...fewer[0], role: 'stern line' }]))).toBe(
      'BAD_INPUT roles[1].was',
    );
    await change(fewer);
    expect(await answer(change(fewer))).toBe('CHANGED_MEANWHILE version');
    const left = await placesOf(day);
    const names = async (ref: string) => (await house.volunteer(ref)).volunteerId;
    expect(left.map(({ role, state, volunteerId }) => [role, state, volunteerId])).toEqual([
      ['bow line', 'taken', await names('hand-2')],
      ['first aider', 'taken', await names('aider')],
      ['first aider', 'posted', null],
      ['fenders', 'posted', null],
    ]);
    const told = async () =>
      (
        await house.database.read.query<{ recipientId: string; words: string }[]>(
          `SELECT "recipientId", words FROM message WHERE kind = 'place-changed' ORDER BY id`,
        )
      ).map(({ recipientId, words }) => [recipientId, words.replace(/^.*?[(]|[)][^]*$/gsu, '')]);
    expect(await told()).toEqual([
      [await names('rigger'), 'line handler'],
      [await names('hand-2'), 'bow line'],
    ]);
    // What a role asks for now keeps out who does not have it.
    await change([{ ...hand, was: 'bow line', role: 'bow line', count: 1, cardKindId }], day.version + 1);
    expect(await placesOf(day)).toMatchObject([
      { role: 'bow line', state: 'posted', volunteerId: null, cardKindId },
    ]);
    expect(
      (await told())
        .slice(2)
        .map(([who]) => who)
        .sort(),
    ).toEqual([await names('aider'), await names('hand-2')].sort());
    // Who takes the same place back, and loses it again, is told again.
    await change([{ ...hand, was: 'bow line', role: 'bow line', count: 1 }], day.version + 2);
    expect(await take('hand-2', await placeFor(day, 'bow line'))).toBe('yes');
    await change([{ ...hand, was: null, role: 'fenders', count: 1 }], day.version + 3);
    expect((await told()).slice(4)).toEqual([[await names('hand-2'), 'bow line']]);
  });

  it('keeps its roles when it is called in the morning by who came', async () => {
    const day = await layOn();
    await postAll();
    const now = localToInstant('2027-03-12', '07:00', 'America/Los_Angeles');
    await house.database.write((manager) => house.app.get(YardClock).set(manager, house.organisationId, now));
    const ids = (await placesOf(day)).flatMap(({ volunteerId }) => volunteerId ?? []);
    const sheet = await house.app.get(MorningSheets).of(coordinator(), day.id);
    expect(
      sheet.work.flatMap(({ roles }) => roles.map(({ role, volunteerId }) => [role, volunteerId])),
    ).toEqual(
      [...(await placesOf(day))]
        .sort((a, b) => (a.role ?? '').localeCompare(b.role ?? ''))
        .map(({ role, volunteerId }) => [role, volunteerId]),
    );
    const morning = await house.app.get(Mornings).propose(coordinator(), day.id, ids);
    expect(morning.seats.map(({ role }) => role).sort()).toEqual([
      ...['first aider', 'line handler', 'line handler', 'speaks with the lift'],
    ]);
    await house.app.get(Calling).confirm(
      coordinator(),
      {
        ...{ turnoutId: day.id, version: 0, absent: [], visitors: [], fallen: [] },
        present: ids.map((volunteerId) => ({ volunteerId, how: 'ticked', arrivedAt: null })),
        seats: morning.seats.map(({ taskId, skillId, level, volunteerId, startsAt, endsAt }) => {
          return { taskId, skillId, level, volunteerId, startsAt, endsAt };
        }),
      },
      null,
    );
    const called = await placesOf(day);
    expect(called.map(({ role, state }) => `${role ?? ''} ${state}`).sort()).toEqual([
      ...['first aider taken', 'line handler taken', 'line handler taken', 'speaks with the lift taken'],
    ]);
    expect(called.find(({ role }) => role === 'first aider')?.cardKindId).toBe(cardKindId);
  });

  it('is called off like a turnout, and laid on anew at the same minute', async () => {
    const day = await layOn();
    await postAll();
    expect(await answer(layOn({ startTime: '08:00' }))).toBe('ALREADY_EXISTS on');
    await house.app.get(Turnouts).cancel(coordinator(), day.id, day.version, 'no water on the sill');
    expect(
      (await house.database.read.query(`SELECT * FROM message WHERE kind = 'turnout-called-off'`)).length,
    ).toBe(4);
    const again = await layOn({ title: 'Launch day, second try' });
    expect(again.id).toBe(day.id);
    expect((await placesOf(again)).map(({ state, volunteerId }) => [state, volunteerId])).toEqual(
      Array.from({ length: 4 }, () => ['posted', null]),
    );
  });

  it('is refused with the field that is wrong, and nothing is laid on', async () => {
    const hand = { role: 'line handler', count: 1, skillId: null, level: 0, cardKindId: null };
    expect(await answer(layOn({ on: '2027-02-30' }))).toBe('BAD_INPUT on');
    expect(await answer(layOn({ on: '2027-03-01' }))).toBe('BAD_INPUT on');
    expect(await answer(layOn({ on: '2099-01-01' }))).toBe('BAD_INPUT on');
    expect(await answer(layOn({ on: '9999-12-31' }))).toBe('BAD_INPUT on');
    expect(await answer(layOn({ endTime: '06:00' }))).toBe('BAD_INPUT endTime');
    expect(await answer(layOn({ title: ' ' }))).toBe('BAD_INPUT title');
    expect(await answer(layOn({ taskId: 'task_none' }))).toBe('NOT_FOUND taskId');
    expect(await answer(layOn({ roles: [] }))).toBe('BAD_INPUT roles');
    expect(await answer(layOn({ roles: [{ ...hand, role: '' }] }))).toBe('BAD_INPUT roles[0].role');
    expect(await answer(layOn({ roles: [{ ...hand, count: 0 }] }))).toBe('BAD_INPUT roles[0].count');
    expect(await answer(layOn({ roles: [{ ...hand, level: 2 }] }))).toBe('BAD_INPUT roles[0].level');
    expect(await answer(layOn({ roles: [hand, hand] }))).toBe('BAD_INPUT roles[1].role');
    expect(await answer(layOn({ roles: [{ ...hand, skillId: 'skill_none', level: 1 }] }))).toBe(
      'NOT_FOUND roles[0].skillId',
    );
    expect(await answer(layOn({ roles: [{ ...hand, cardKindId: 'card_none' }] }))).toBe(
      'NOT_FOUND roles[0].cardKindId',
    );
    // The turnout of the Saturday starts at nine.
    expect(await answer(layOn({ on: '2027-03-13', startTime: '09:00' }))).toBe('ALREADY_EXISTS startTime');
    expect(await house.database.read.countBy(TurnoutEntity, { kind: 'all-hands' })).toBe(0);
    const shipwright = house.caller('shipwright');
    expect(await answer(proposals().propose(shipwright, undefined, 'all-hands'))).toBe('NOT_PERMITTED');
  });
});
