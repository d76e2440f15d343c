import { Skill } from '@ribband/crew';
import { ComputeJob, scratchKinds } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { OpenPlaces } from '../../../roster/src/places/open-places.service.js';
import { PlaceEntity, Places, TurnoutEntity, Turnouts, Watches } from '@ribband/roster';
import { In, MoreThan } from 'typeorm';
import { answer, TestHouse } from '../planning.fixture.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import { Weeks } from '../week/weeks.service.js';
import { WatchProposals } from './watch-proposals.service.js';

const night = (from: string, to: string) => ({
  ...{ rule: 'FREQ=DAILY', startsOn: '2027-03-01', untilOn: null, from, to },
});

/** The small yard without places, with a float watch and people who come by day, by night, or are too young. */
function watchedYard() {
  const yard = { ...smallYard(), places: [], tallies: [] };
  const [pulling] = yard.tasks;
  yard.skills.push({ ref: 'float-watch', name: 'float watch' });
  yard.openingLimits.push({
    ref: 'none',
    name: 'frames',
    elements: ['frame-12'],
    atMost: 0,
    basis: 'a test',
    override: null,
  });
  yard.tasks.push({
    ...pulling,
    ...{ ref: 'float-watch', title: 'Float watch', crew: { min: 2, efficient: 2, max: 2 }, opens: [] },
    estimate: { by: 'work', personMinutes: { low: 900, likely: 1440, high: 2000 } },
    seats: [{ skill: 'float-watch', level: 2, count: 1, cards: [] }],
    ...{ hazards: [], cautions: ['Vests on deck; the pump log every half hour.'] },
  });
  yard.tasks.push({
    ...pulling,
    ...{
      ref: 'draw-frame',
      title: 'Draw frame 12',
      position: null,
      opens: ['frame-12'],
      hazards: [],
      cautions: [],
    },
    ...{ crew: { min: 2, efficient: 2, max: 2 }, seats: [] },
  });
  const skilled = [{ skill: 'float-watch', level: 2, signedOffBy: null }];
  for (const { ref, skills, rules } of [
    { ref: 'day-1', skills: skilled, rules: [night('05:00', '23:00')] },
    { ref: 'day-2', skills: [], rules: [night('05:00', '23:00')] },
    { ref: 'night-1', skills: skilled, rules: [night('20:00', '08:00')] },
    { ref: 'night-2', skills: [], rules: [night('20:00', '08:00')] },
  ])
    yard.volunteers.push({
      ...yard.volunteers[1],
      ...{ ref, name: ref, skills, bornOn: '1980-02-02', availability: { rules, exceptions: [] } },
    });
  const minor = yard.volunteers.find(({ ref }) => ref === 'cass-underhay');
  Object.assign(minor ?? {}, {
    skills: skilled,
    availability: { rules: [night('05:00', '23:00')], exceptions: [] },
  });
  return yard;
}

describe.each(scratchKinds())('watches afloat, on %s', (kind) => {
  let house: TestHouse;
  let layOn: (change?: object) => Promise<TurnoutEntity[]>;
  /** @param computing whether plans are made */
  async function open(computing: 'run' | 'ask'): Promise<void> {
    house = await TestHouse.open(kind, computing);
    const read = await house.app.get(YardBook).import(house.caller('director'), watchedYard(), false);
    if (Array.isArray(read)) throw new Error(JSON.stringify(read));
    if (computing === 'run') await house.settled(60_000, ['plan']);
    const { organisationId } = house;
    const task = await house.database.read.findOneByOrFail(Task, { organisationId, ref: 'float-watch' });
    const skill = await house.database.read.findOneByOrFail(Skill, { organisationId, ref: 'float-watch' });
    const usual = {
      ...{ taskId: task.id, skillId: skill.id, level: 2, on: '2027-03-12', startTime: '15:00' },
      ...{ hours: 24, hoursEach: 4, people: 2 },
    };
    layOn = (change = {}) =>
      house.app.get(Watches).layOn(house.caller('coordinator'), { ...usual, ...change });
  }
  beforeEach(() => open('ask'));
  afterEach(() => house.close());

  const coordinator = () => house.caller('coordinator');
  const placesOf = (turnouts: readonly TurnoutEntity[]) =>
    house.database.read.find(PlaceEntity, {
      where: { turnoutId: In(turnouts.map(({ id }) => id)) },
      order: { startsAt: 'ASC', level: 'DESC', id: 'ASC' },
    });
  const proposals = () => house.app.get(WatchProposals);
  const proposed = async () =>
    (await proposals().propose(coordinator(), 3)).map(({ turnout, places }) => [
      turnout.startTime,
      ...places.map(({ hand }) => hand?.name ?? null),
    ]);

  it('are laid on in one step, and given to those who said that they can come then, at night only by the hour', async () => {
    expect(await answer(layOn({ on: '2099-01-01' }))).toBe('BAD_INPUT on');
    const watches = await layOn();
    expect(watches.map(({ heldOn, startTime }) => `${heldOn} ${startTime}`)).toEqual([
      ...['2027-03-12 15:00', '2027-03-12 19:00', '2027-03-12 23:00'],
      ...['2027-03-13 03:00', '2027-03-13 07:00', '2027-03-13 11:00'],
    ]);
    const before = await proposed();
    // Marguerite comes on Saturdays: by day, not at three in the morning. Nobody who is rested is left for the others.
    expect(before[2]).toEqual(['23:00', 'night-1', 'night-2']);
    expect(before[0]).toEqual(['15:00', 'day-1', 'day-2']);
    expect(before[3]).toEqual(['03:00', null, null]);
    expect(before.slice(4).flat()).not.toContain('Cass Underhay');
    const told = await proposals().propose(coordinator(), 3);
    const hands = told.flatMap(({ places }) =>
      places.map(({ place, hand }) => ({ placeId: place.id, volunteerId: hand?.id ?? null })),
    );
    expect((await proposals().post(coordinator(), hands)).turnedAway).toEqual([]);
    const once = await placesOf(watches);
    expect(once.filter(({ volunteerId }) => volunteerId !== null)).toHaveLength(
      hands.filter(({ volunteerId }) => volunteerId !== null).length,
    );
    // A second press on the same list says that it is posted.
    expect(await answer(proposals().post(coordinator(), hands))).toBe('ALREADY_EXISTS places');
    expect(await placesOf(watches)).toEqual(once);
    // Posted again nothing changes.
    const again = once.map(({ id, volunteerId }) => ({ placeId: id, volunteerId }));
    await proposals().post(coordinator(), again);
    expect(await placesOf(watches)).toEqual(once);
  });

  it('are taken and left like any place, by the same gates, and never by somebody under 18', async () => {
    const watches = await layOn();
    const places = await placesOf(watches);
    const take = async (ref: string, at: number) =>
      answer(house.app.get(Places).take(await house.volunteer(ref), places[at]?.id ?? ''));
    const minor = await house.volunteer('cass-underhay');
    expect(await house.app.get(OpenPlaces, { strict: false }).permittedTo(minor)).toEqual([]);
    expect(await take('cass-underhay', 0)).toBe('TOO_YOUNG');
    expect(await take('day-2', 0)).toBe('SKILL_MISSING');
    expect(await take('day-2', 1)).toBe('yes');
    // Eight hours in one go are a shift, twelve are not, and after a shift there is rest.
    expect(await take('day-2', 3)).toBe('yes');
    expect(await take('day-2', 5)).toBe('GATE_CLOSED');
    const second = await house.volunteer('day-2');
    await house.app.get(Places).leave(second, places[3]?.id ?? '', null);
    expect((await proposed())[0]?.slice(1)).toContain('day-2');
    const left = (await proposals().propose(coordinator(), 3))[1]?.places.map(({ hand }) => hand?.name);
    expect(left).not.toContain('day-2');
  });

  it('are not posted while the hull must wait, and that is said', async () => {
    const { organisationId } = house;
    const draw = await house.database.read.findOneByOrFail(Task, { organisationId, ref: 'draw-frame' });
    const watches = await layOn({ taskId: draw.id, hours: 4 });
    const { turnedAway } = await proposals().post(coordinator(), []);
    expect(turnedAway).toHaveLength(1);
    expect(turnedAway[0]).toMatch(/^“Draw frame 12” is not posted, and its places are taken back: Frame 12/);
    expect(await placesOf(watches)).toEqual([]);
  });

  it('bind nobody twice: a watch keeps its people from the turnout meanwhile, and the week leaves the watch as it is', async () => {
    await house.close();
    await open('run');
    const watches = await layOn({ on: '2027-03-13', startTime: '10:00', hours: 8 });
    const places = await placesOf(watches);
    const marguerite = await house.volunteer('marguerite-alkin');
    await house.app.get(Places).take(marguerite, places[1]?.id ?? '');
    await house.settled(60_000, ['plan']);
    const weeks = house.app.get(Weeks);
    const week = await weeks.propose(coordinator(), '2027-03-13');
    expect(week.turnouts.map(({ turnout }) => turnout.kind)).toEqual([null, null, null, null]);
    const saturday = week.turnouts.find(({ turnout }) => turnout.heldOn === '2027-03-13');
    const there = saturday?.work.flatMap((work) => work.places.map(({ volunteerId }) => volunteerId));
    expect(there).not.toContain(marguerite.volunteerId);
    await weeks.post(coordinator(), '2027-03-13', week.told?.entity.id ?? '');
    expect(await placesOf(watches)).toHaveLength(places.length);
  }, 120_000);

  it('are called off in one step, told to their people, and laid on anew at the same minutes', async () => {
    const watches = await layOn();
    const [, hand] = await placesOf(watches);
    const second = await house.volunteer('day-2');
    await house.app.get(Places).take(second, hand.id);
    expect(await answer(layOn())).toBe('ALREADY_EXISTS on');
    const book = house.app.get(Watches);
    expect(await answer(book.callOffAll(coordinator(), ' '))).toBe('BAD_INPUT reason');
    expect(await answer(book.callOffAll(house.caller('shipwright'), 'the tide'))).toBe('NOT_PERMITTED');
    expect(await book.callOffAll(coordinator(), 'she stays on the hard')).toHaveLength(6);
    // Its people are free for other work again.
    const plans = await house.database.read.findBy(ComputeJob, { name: 'plan', state: 'waiting' });
    expect(plans.map(({ why }) => why)).toContain('watches were called off');
    const told = await house.database.read.query(`SELECT * FROM message WHERE kind = 'turnout-called-off'`);
    expect(told).toMatchObject([{ subject: 'Called off: the watch on Friday, March 12' }]);
    expect(await house.app.get(Places).mine(second)).toMatchObject([{ id: hand.id }]);
    const again = await layOn({ people: 3 });
    expect(again.map(({ id }) => id)).toEqual(watches.map(({ id }) => id));
    expect(await placesOf(again)).toHaveLength(18);
  });

  it('are refused with the field that is wrong, and nothing is laid on', async () => {
    expect(await answer(layOn({ people: 1 }))).toBe('BAD_INPUT people');
    expect(await answer(layOn({ hoursEach: 9 }))).toBe('BAD_INPUT hoursEach');
    expect(await answer(layOn({ hours: 400 }))).toBe('BAD_INPUT hours');
    expect(await answer(layOn({ hours: 336, hoursEach: 2, people: 6 }))).toBe('BAD_INPUT people');
    expect(await answer(layOn({ level: 0 }))).toBe('BAD_INPUT level');
    expect(await answer(layOn({ on: '2027-02-30' }))).toBe('BAD_INPUT on');
    expect(await answer(layOn({ on: '2027-03-05' }))).toBe('BAD_INPUT on');
    expect(await answer(layOn({ taskId: 'task_none' }))).toBe('NOT_FOUND taskId');
    expect(await answer(layOn({ skillId: 'skill_none' }))).toBe('NOT_FOUND skillId');
    // The turnout of the Saturday starts at nine.
    expect(await answer(layOn({ startTime: '13:00' }))).toBe('ALREADY_EXISTS startTime');
    const laidOn = { kind: 'watch', heldOn: MoreThan('2027-03-06') } as const;
    expect(await house.database.read.countBy(TurnoutEntity, laidOn)).toBe(0);
    await layOn();
    const usual = { on: '2027-03-12', startTime: '15:00', endTime: '18:00' };
    const turnouts = house.app.get(Turnouts);
    expect(await answer(turnouts.add(coordinator(), usual))).toBe('ALREADY_EXISTS startTime');
    expect(await answer(turnouts.add(coordinator(), { ...usual, startTime: '15:30' }))).toBe('yes');
  });
});
