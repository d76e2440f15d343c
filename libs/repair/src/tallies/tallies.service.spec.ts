import { VolunteerSkill, YardDay } from '@ribband/crew';
import { addDays, newId, scratchKinds } from '@ribband/platform';
import { openSmallYard, plain, refusalOf, type SmallYard } from '../repair.fixture.js';
import { Seat } from '../tasks/seat.entity.js';
import { Tasks } from '../tasks/tasks.service.js';
import { YardBoard } from '../tasks/yard-board.js';
import { Delegations } from './delegations.service.js';
import { SaySo } from './say-so.entity.js';
import { SaySos } from './say-so.service.js';
import { TallyEntity } from './tally.entity.js';
import { Tallies, type TallyDraft } from './tallies.service.js';

describe.each(scratchKinds())('What got done, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const draft = async (ref: string, over: Partial<TallyDraft> = {}): Promise<TallyDraft> => ({
    taskId: await yard.idOf(ref),
    volunteerId: null,
    turnoutId: null,
    on: null,
    count: null,
    minutes: 60,
    finished: false,
    note: null,
    ...over,
  });
  const stands = async (ref: string) => {
    const id = await yard.idOf(ref);
    const board = await yard.get(YardBoard).of(yard.database.read, yard.organisationId);
    return { state: board.standing.get(id)?.state, ...board.progress.get(id) };
  };
  const tallies = () => yard.get(Tallies);

  it('nails pulled come off what is left, for the volunteer who pulled them', async () => {
    const volunteer = await yard.as('volunteer', 'anselm-druitt');
    const entered = await tallies().enter(volunteer, await draft('pull-nails', { count: 8, minutes: 90 }));
    expect(entered.tally).toMatchObject({ workedOn: '2027-03-27', volunteerId: volunteer.volunteerId });
    expect(await stands('pull-nails')).toMatchObject({ state: 'under-way', countDone: 18, countLeft: 18 });
    expect(await yard.revision()).toBe(1);
  });

  it('a volunteer enters nobody else’s work', async () => {
    const volunteer = await yard.as('volunteer', 'anselm-druitt');
    const others = await draft('pull-nails', { volunteerId: await yard.idOf('marguerite-alkin'), count: 1 });
    expect((await refusalOf(tallies().enter(volunteer, others))).code).toBe('NOT_PERMITTED');
    const withoutEntry = { ...volunteer, volunteerId: null };
    expect((await refusalOf(tallies().enter(withoutEntry, await draft('pull-nails')))).code).toBe(
      'NOT_PERMITTED',
    );
  });

  it('a negative count, a count where nothing is counted, nothing at all and a day to come are refused', async () => {
    const coordinator = await yard.as('coordinator');
    const refused = async (ref: string, over: Partial<TallyDraft>) => {
      const { code, field } = await refusalOf(tallies().enter(coordinator, await draft(ref, over)));
      return [code, field];
    };
    expect(await refused('pull-nails', { count: -3 })).toEqual(['NEGATIVE_COUNT', 'count']);
    expect(await refused('cut-bolts', { count: 3 })).toEqual(['BAD_INPUT', 'count']);
    expect(await refused('cut-bolts', { minutes: 0 })).toEqual(['BAD_INPUT', 'minutes']);
    expect(await refused('cut-bolts', { minutes: -1 })).toEqual(['BAD_INPUT', 'minutes']);
    expect(await refused('cut-bolts', { on: '2027-03-28' })).toEqual(['BAD_INPUT', 'on']);
    expect(await refused('cut-bolts', { turnoutId: 'turnout_2027-04-03' })).toEqual([
      'BAD_INPUT',
      'turnoutId',
    ]);
    expect(await refused('cut-bolts', { turnoutId: 'turnout_none' })).toEqual(['NOT_FOUND', 'turnoutId']);
    expect(await refused('surveyor-looks', {})).toEqual(['TASK_NOT_READY', 'taskId']);
    expect(await yard.database.read.countBy(TallyEntity, { organisationId: yard.organisationId })).toBe(1);
  });

  it('a day long before the haul-out is refused, and what is corrected to nothing never was', async () => {
    const volunteer = await yard.as('volunteer', 'anselm-druitt');
    for (const on of ['0001-01-01', '2020-05-01'])
      expect(await refusalOf(tallies().enter(volunteer, await draft('cut-bolts', { on })))).toMatchObject({
        code: 'BAD_INPUT',
        field: 'on',
      });
    const { tally } = await tallies().enter(volunteer, await draft('cut-bolts', { on: '2027-03-01' }));
    expect((await stands('cut-bolts')).state).toBe('under-way');
    const nothing = { count: null, minutes: 0, finished: null, reason: 'the wrong work' };
    await tallies().correct(volunteer, tally.id, nothing);
    expect(await stands('cut-bolts')).toMatchObject({ state: 'clear', stage: 'not begun', begunAt: null });
  });

  it('nobody tallies more than is left, until the count of the task is corrected', async () => {
    const coordinator = await yard.as('coordinator');
    const more = await draft('pull-nails', { count: 27 });
    const refused = await refusalOf(tallies().enter(coordinator, more));
    expect(refused).toMatchObject({ code: 'BAD_INPUT', field: 'count' });
    expect(refused.message).toBe('Of 36 nails 26 are left, fewer than that.');
    const { tally } = await tallies().enter(coordinator, { ...more, count: 20 });
    const right = { count: 27, minutes: 60, finished: null, reason: 'counted again' };
    expect((await refusalOf(tallies().correct(coordinator, tally.id, right))).field).toBe('count');
    await tallies().correct(coordinator, tally.id, { ...right, count: 26 });
    expect(await stands('pull-nails')).toMatchObject({ state: 'shown', countDone: 36 });
  });

  it('a day of one person has twenty-four hours, all work taken together', async () => {
    const volunteer = await yard.as('volunteer', 'anselm-druitt');
    const { tally } = await tallies().enter(volunteer, await draft('cut-bolts', { minutes: 1000 }));
    const rest = await draft('set-frame', { minutes: 441 });
    expect((await refusalOf(tallies().enter(volunteer, rest))).field).toBe('minutes');
    await tallies().enter(volunteer, { ...rest, minutes: 440 });
    const right = { count: null, minutes: 1001, finished: null, reason: 'longer' };
    expect((await refusalOf(tallies().correct(volunteer, tally.id, right))).field).toBe('minutes');
    await tallies().enter(await yard.as('coordinator'), { ...rest, minutes: 3600 });
  });

  it('a volunteer tallies neither what still waits nor what is passed; who leads may', async () => {
    const volunteer = await yard.as('volunteer', 'anselm-druitt');
    const coordinator = await yard.as('coordinator');
    const waiting = await draft('draw-futtocks', { finished: true });
    const refused = await refusalOf(tallies().enter(volunteer, waiting));
    expect(refused).toMatchObject({ code: 'TASK_NOT_READY', field: 'taskId' });
    expect(refused.message).toContain('waits for "Frame 12: cut bolts at floor and clamp"');
    await tallies().enter(coordinator, waiting);
    await yard.get(SaySos).pass(await yard.as('shipwright'), waiting.taskId, null);
    expect((await refusalOf(tallies().enter(volunteer, waiting))).message).toContain('is passed');
    await tallies().enter(coordinator, { ...waiting, finished: false });
  });

  it('a tally that comes twice with the same key is entered once', async () => {
    const volunteer = await yard.as('volunteer', 'anselm-druitt');
    const nails = await draft('pull-nails', { count: 5, note: ' rusty ' });
    const sent = await Promise.all([1, 2].map(() => tallies().enter(volunteer, nails, 'this filling')));
    expect(sent[1]?.tally.id).toBe(sent[0]?.tally.id);
    expect(await stands('pull-nails')).toMatchObject({ countDone: 15 });
    const other = tallies().enter(volunteer, { ...nails, count: 6 }, 'this filling');
    expect(await refusalOf(other)).toMatchObject({ code: 'BAD_INPUT', field: 'key' });
    const coordinator = await yard.as('coordinator');
    await tallies().enter(coordinator, nails, 'this filling');
    expect(await stands('pull-nails')).toMatchObject({ countDone: 20 });
  });

  it('a tally takes the day of the turnout that it names', async () => {
    const coordinator = await yard.as('coordinator');
    const { tally } = await tallies().enter(
      coordinator,
      await draft('cut-bolts', { turnoutId: 'turnout_2027-03-20' }),
    );
    expect(tally.workedOn).toBe('2027-03-20');
  });

  it('a correction is a new row that points at the old one, which stays', async () => {
    const coordinator = await yard.as('coordinator');
    const { tally } = await tallies().enter(coordinator, await draft('pull-nails', { count: 26 }));
    expect((await stands('pull-nails')).state).toBe('shown');
    const right = { count: 16, minutes: 60, finished: null, reason: 'counted the wrong tray' };
    const { tally: correction } = await tallies().correct(coordinator, tally.id, right);
    expect(correction.correctsId).toBe(tally.id);
    expect(await stands('pull-nails')).toMatchObject({ state: 'under-way', countLeft: 10 });
    expect(await yard.database.read.findOneBy(TallyEntity, { id: tally.id })).toMatchObject({ count: 26 });
    const again = await refusalOf(tallies().correct(coordinator, tally.id, right));
    expect(again).toMatchObject({ code: 'CHANGED_MEANWHILE', facts: [{}, { value: correction.id }] });
    expect(
      await refusalOf(tallies().correct(coordinator, correction.id, { ...right, reason: '' })),
    ).toMatchObject({
      field: 'reason',
    });
  });

  it('the shipwright passes what was shown, and nothing that was not', async () => {
    const shipwright = await yard.as('shipwright');
    const id = await yard.idOf('pull-nails');
    expect((await refusalOf(yard.get(SaySos).pass(shipwright, id, null))).code).toBe('TASK_NOT_READY');
    await tallies().enter(shipwright, await draft('pull-nails', { count: 26 }));
    await yard.get(SaySos).pass(shipwright, id, 'clean holes');
    expect((await stands('pull-nails')).state).toBe('passed');
    expect((await refusalOf(yard.get(SaySos).pass(shipwright, id, null))).message).toMatch(/already/);
    const coordinator = await yard.as('coordinator');
    expect((await refusalOf(yard.get(SaySos).pass(coordinator, id, null))).code).toBe('NOT_PERMITTED');
  });

  it('with the lead off sick, somebody who was named says so: over that work, until that day, until taken back', async () => {
    const shipwright = await yard.as('shipwright');
    const named = await yard.as('volunteer', 'anselm-druitt');
    const id = await yard.idOf('pull-nails');
    const saySos = yard.get(SaySos);
    await tallies().enter(shipwright, await draft('pull-nails', { count: 26 }));
    const code = async () => (await refusalOf(saySos.pass(named, id, null))).code;
    expect(await code()).toBe('NOT_PERMITTED');
    const today = await yard.get(YardDay).today(yard.organisationId);
    const given = { volunteerId: named.volunteerId ?? '', from: today, until: today, reason: 'off sick' };
    const delegations = yard.get(Delegations);
    expect((await refusalOf(delegations.give(named, { ...given, scope: 'all', names: [] }))).code).toBe(
      'NOT_PERMITTED',
    );
    const elsewhere = await yard.idOf('set-frame');
    await delegations.give(shipwright, { ...given, scope: 'tasks', names: [elsewhere] });
    const later = { ...given, from: addDays(today, 1), until: addDays(today, 3) };
    await delegations.give(shipwright, { ...later, scope: 'all', names: [] });
    expect(await code()).toBe('NOT_PERMITTED');
    const row = await delegations.give(shipwright, { ...given, scope: 'kind', names: ['work'] });
    await delegations.revoke(shipwright, row.id);
    expect(await code()).toBe('NOT_PERMITTED');
    await delegations.give(shipwright, { ...given, scope: 'kind', names: ['work'] });
    await saySos.pass(named, id, 'clean holes');
    const [said] = await yard.database.read.findBy(SaySo, { taskId: id });
    expect(said.saidBy).toBe(`${named.name}, for ${shipwright.name}`);
  });

  it('whoever was signed off to say so in a skill passes work that asks for it, and no other', async () => {
    const shipwright = await yard.as('shipwright');
    const journey = await yard.as('volunteer', 'anselm-druitt');
    const taskId = await yard.idOf('draw-futtocks');
    const asking = await yard.database.read.findOneByOrFail(Seat, { taskId });
    await yard.database.write(async (manager) => {
      const held = { volunteerId: journey.volunteerId ?? '', skillId: asking.skillId };
      await manager.delete(VolunteerSkill, held);
      await manager.insert(VolunteerSkill, {
        id: newId('volunteerskill'),
        organisationId: yard.organisationId,
        ...held,
        level: 4,
        signedOffBy: 'Odalys Brenn',
        signedOffAt: null,
      });
    });
    await tallies().enter(shipwright, await draft('draw-futtocks', { minutes: 60, finished: true }));
    await yard.get(SaySos).pass(journey, taskId, null);
    const other = await yard.idOf('surveyor-looks');
    expect((await refusalOf(yard.get(SaySos).pass(journey, other, null))).code).toBe('NOT_PERMITTED');
  });

  it('nine nails sent back are nine nails to pull again', async () => {
    const shipwright = await yard.as('shipwright');
    const id = await yard.idOf('pull-nails');
    await tallies().enter(shipwright, await draft('pull-nails', { count: 26 }));
    const back = { count: 9, minutes: null, reason: 'heads broke off' };
    for (const count of [null, 0, 37])
      expect(await refusalOf(yard.get(SaySos).sendBack(shipwright, id, { ...back, count }))).toMatchObject({
        code: 'BAD_INPUT',
        field: 'countBack',
      });
    await yard.get(SaySos).sendBack(shipwright, id, back);
    expect(await stands('pull-nails')).toMatchObject({ state: 'redo', countLeft: 9 });
    await tallies().enter(shipwright, await draft('pull-nails', { count: 9 }));
    expect((await stands('pull-nails')).state).toBe('shown');
  });

  it('work that is not counted goes back in person-minutes', async () => {
    const shipwright = await yard.as('shipwright');
    const id = await yard.idOf('set-frame');
    await tallies().enter(shipwright, await draft('set-frame', { minutes: 240, finished: true }));
    const back = { count: null, minutes: null, reason: 'joint stands open' };
    expect(await refusalOf(yard.get(SaySos).sendBack(shipwright, id, back))).toMatchObject({
      field: 'minutesBack',
    });
    await yard.get(SaySos).sendBack(shipwright, id, { ...back, minutes: 90 });
    expect(await stands('set-frame')).toMatchObject({ state: 'redo', workLeft: { likely: 90 } });
  });

  it('nothing is sent back before it has begun', async () => {
    const shipwright = await yard.as('shipwright');
    const back = { count: null, minutes: 60, reason: 'wrong' };
    const refused = await refusalOf(
      yard.get(SaySos).sendBack(shipwright, await yard.idOf('cut-bolts'), back),
    );
    expect(refused.code).toBe('TASK_NOT_READY');
  });

  it('after hot work the say-so waits for the fire watch, sixty minutes', async () => {
    const shipwright = await yard.as('shipwright');
    const id = await yard.idOf('cut-bolts');
    await tallies().enter(shipwright, await draft('cut-bolts', { finished: true }));
    await yard.setClock('2027-03-27', '12:59');
    const refused = await refusalOf(yard.get(SaySos).pass(shipwright, id, null));
    expect(refused.code).toBe('TASK_NOT_READY');
    expect(refused.message).toContain('until 13:00 on 2027-03-27');
    await yard.setClock('2027-03-27', '13:00');
    await yard.get(SaySos).pass(shipwright, id, null);
    expect((await stands('cut-bolts')).state).toBe('passed');
  });

  it('a hold is passed when what stands before it is done and its time has gone by', async () => {
    const shipwright = await yard.as('shipwright');
    const id = await yard.idOf('surveyor-looks');
    expect((await refusalOf(yard.get(SaySos).pass(shipwright, id, null))).message).toMatch(/not done yet/);
    await tallies().enter(shipwright, await draft('set-frame', { finished: true }));
    await yard.setClock('2027-03-28', '11:59');
    expect((await stands('surveyor-looks')).state).toBe('waiting');
    await yard.setClock('2027-03-28', '12:00');
    await yard.get(SaySos).pass(shipwright, id, 'seen by the surveyor');
    expect((await stands('launch')).state).toBe('clear');
  });

  it('what is held is not passed, whatever was shown', async () => {
    const shipwright = await yard.as('shipwright');
    const { id } = await yard
      .get(Tasks)
      .add(shipwright, { ...plain, title: 'Hang plank', held: 'shape drifts' });
    const tally = { ...(await draft('pull-nails')), taskId: id, finished: true };
    await tallies().enter(shipwright, tally);
    const refused = await refusalOf(yard.get(SaySos).pass(shipwright, id, null));
    expect(refused.message).toContain('shape drifts');
  });
});
