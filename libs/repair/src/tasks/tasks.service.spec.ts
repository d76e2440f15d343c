import { AuditEntry } from '@ribband/access';
import { scratchKinds } from '@ribband/platform';
import { openSmallYard, plain, refusalOf, type SmallYard } from '../repair.fixture.js';
import { Task } from './task.entity.js';
import { readDraft } from './task.records.js';
import { listTasks } from './task-list.js';
import { Tasks } from './tasks.service.js';
import { YardBoard } from './yard-board.js';

describe.each(scratchKinds())('What is to be done, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const tasks = () => yard.get(Tasks);
  const board = () => yard.get(YardBoard).of(yard.database.read, yard.organisationId);
  const taskOf = (id: string) => yard.database.read.findOneByOrFail(Task, { id });

  it('the shipwright adds a task; a plan is asked for and the trail says who', async () => {
    const shipwright = await yard.as('shipwright');
    const seats = [{ skill: await yard.idOf('journey'), level: 2, count: 1, cards: [] }];
    const added = await tasks().add(shipwright, { ...plain, title: 'Frame 12: punch stubs', seats });
    expect(added).toMatchObject({ ref: 'frame-12-punch-stubs', version: 1 });
    expect(await readDraft(yard.database.read, await taskOf(added.id))).toEqual({
      ...plain,
      title: 'Frame 12: punch stubs',
      seats,
    });
    expect(await yard.revision()).toBe(1);
    const [entry] = await yard.database.read.findBy(AuditEntry, { subjectId: added.id });
    expect(entry).toMatchObject({ operation: 'addTask', who: 'The shipwright' });
  });

  it('two tasks of the same title get keys of their own', async () => {
    const shipwright = await yard.as('shipwright');
    const refs = [];
    for (let n = 0; n < 3; n += 1) refs.push((await tasks().add(shipwright, plain)).ref);
    expect(refs).toEqual(['sweep-the-shed', 'sweep-the-shed-2', 'sweep-the-shed-3']);
  });

  it('a volunteer does not change what is to be done', async () => {
    const volunteer = await yard.as('volunteer', 'anselm-druitt');
    expect((await refusalOf(tasks().add(volunteer, plain))).code).toBe('NOT_PERMITTED');
  });

  it('an unknown skill is refused by its place, and nothing of the task is kept', async () => {
    const shipwright = await yard.as('shipwright');
    const before = await yard.database.read.countBy(Task, { organisationId: yard.organisationId });
    const seats = [{ skill: 'skill_cook', level: 2, count: 1, cards: [] }];
    expect(await refusalOf(tasks().add(shipwright, { ...plain, seats }))).toMatchObject({
      code: 'UNKNOWN_SKILL',
      field: 'seats[0].skill',
    });
    expect(await yard.database.read.countBy(Task, { organisationId: yard.organisationId })).toBe(before);
    expect(await yard.revision()).toBe(0);
  });

  it('work in one go beyond the longest turnout to come is refused with its length', async () => {
    const shipwright = await yard.as('shipwright');
    const estimate = { by: 'work', personMinutes: { low: 900, likely: 1000, high: 1200 } } as const;
    const refused = await refusalOf(tasks().add(shipwright, { ...plain, estimate, oneGo: true }));
    expect(refused).toMatchObject({ code: 'ONE_GO_TOO_LONG', field: 'oneGo' });
    expect(refused.message).toContain('the longest turnout has 300');
    // After the last turnout there is none that could be too short.
    await yard.setClock('2027-05-01', '12:00');
    await expect(tasks().add(shipwright, { ...plain, estimate, oneGo: true })).resolves.toBeDefined();
  });

  it('an edit changes what it names and leaves the rest', async () => {
    const shipwright = await yard.as('shipwright');
    const id = await yard.idOf('draw-futtocks');
    const before = await readDraft(yard.database.read, await taskOf(id));
    const edited = await tasks().edit(shipwright, id, 1, {
      position: 'starboard side, frame 12',
      leastAge: null,
    });
    expect(edited.version).toBe(2);
    expect(await readDraft(yard.database.read, await taskOf(id))).toEqual({
      ...before,
      position: 'starboard side, frame 12',
      leastAge: null,
    });
  });

  it('an edit that makes the whole unsound is refused: fewer hands than seats', async () => {
    const shipwright = await yard.as('shipwright');
    const id = await yard.idOf('draw-futtocks');
    const crew = { min: 0, efficient: 0, max: 0 };
    expect(await refusalOf(tasks().edit(shipwright, id, 1, { crew }))).toMatchObject({
      code: 'CREW_OUT_OF_ORDER',
    });
    expect((await taskOf(id)).version).toBe(1);
  });

  it('of four who save the same version at once exactly one is kept, the others get both versions', async () => {
    const shipwright = await yard.as('shipwright');
    const id = await yard.idOf('draw-futtocks');
    const saved = await Promise.allSettled(
      ['A', 'B', 'C', 'D'].map((title) => tasks().edit(shipwright, id, 1, { title })),
    );
    const refused = saved.filter((one) => one.status === 'rejected');
    expect(refused).toHaveLength(3);
    for (const one of refused)
      expect(one.reason).toMatchObject({
        refusal: { code: 'CHANGED_MEANWHILE', facts: [{ value: '1' }, { value: '2' }] },
      });
  });

  it('an element is opened by one task only', async () => {
    const shipwright = await yard.as('shipwright');
    const opens = [await yard.idOf('frame-12')];
    const refused = await refusalOf(tasks().add(shipwright, { ...plain, opens }));
    expect(refused).toMatchObject({ code: 'ALREADY_EXISTS', field: 'opens[0]' });
    expect(refused.message).toContain('Frame 12: draw futtocks');
    await tasks().drop(shipwright, await yard.idOf('draw-futtocks'), 1, 'frame 12 is sound');
    await expect(tasks().add(shipwright, { ...plain, opens })).resolves.toBeDefined();
  });

  it('a dropped task keeps its record and keeps nobody waiting', async () => {
    const shipwright = await yard.as('shipwright');
    const [bolts, draw] = [await yard.idOf('cut-bolts'), await yard.idOf('draw-futtocks')];
    await yard.setClock('2027-04-03', '12:00');
    expect((await board()).standing.get(draw)?.state).toBe('waiting');
    await tasks().drop(shipwright, bolts, 1, 'the bolts are gone');
    expect((await board()).standing.get(bolts)?.state).toBe('dropped');
    expect((await board()).standing.get(draw)?.state).toBe('clear');
    expect(await refusalOf(tasks().edit(shipwright, bolts, 2, { title: 'x' }))).toMatchObject({
      code: 'TASK_NOT_READY',
    });
    expect(await refusalOf(tasks().drop(shipwright, draw, 1, ' '))).toMatchObject({ field: 'reason' });
  });

  it('a say-so is dropped by the shipwright only, with a reason that others can follow; the launch never', async () => {
    const [shipwright, director] = [await yard.as('shipwright'), await yard.as('director')];
    const looks = await yard.idOf('surveyor-looks');
    const drop = (caller: typeof director, id: string, reason: string) => tasks().drop(caller, id, 1, reason);
    expect(await refusalOf(drop(director, looks, 'the insurer asks for no surveyor'))).toMatchObject({
      code: 'NOT_PERMITTED',
    });
    expect(await refusalOf(drop(shipwright, looks, 'not now'))).toMatchObject({
      code: 'BAD_INPUT',
      field: 'reason',
    });
    const { id: launch } = await yard.database.read.findOneByOrFail(Task, {
      organisationId: yard.organisationId,
      kind: 'launch',
    });
    expect(await refusalOf(drop(shipwright, launch, 'she stays ashore'))).toMatchObject({ field: 'id' });
    await drop(shipwright, looks, 'the insurer asks for no surveyor');
    expect((await board()).standing.get(looks)?.state).toBe('dropped');
  });

  it('seats are set as a whole, and none may be set', async () => {
    const coordinator = await yard.as('coordinator');
    const id = await yard.idOf('pull-nails');
    await tasks().setSeats(coordinator, id, 1, []);
    expect((await readDraft(yard.database.read, await taskOf(id))).seats).toEqual([]);
    const puller = await yard.idOf('puller');
    const four = [{ skill: puller, level: 2, count: 4, cards: [] }];
    expect(await refusalOf(tasks().setSeats(coordinator, id, 2, four))).toMatchObject({
      code: 'CREW_OUT_OF_ORDER',
      field: 'seats',
    });
  });

  it('somebody with a place makes a clear task taken', async () => {
    const id = await yard.idOf('cut-bolts');
    yard.taken.add(id);
    expect((await board()).standing.get(id)?.state).toBe('taken');
  });

  it('the list can be asked by where it is on the hull and by how it stands', async () => {
    const all = await board();
    const titles = (filter: Parameters<typeof listTasks>[1], first = 50) =>
      listTasks(all, filter, { first }).nodes.map((task) => task.ref);
    expect(titles({ position: 'FRAME 12' })).toEqual(['cut-bolts', 'draw-futtocks']);
    expect(titles({ state: 'under-way' })).toEqual(['pull-nails', 'set-frame']);
    const page = listTasks(all, {}, { first: 2 });
    expect(page.pageInfo.hasNextPage).toBe(true);
    expect(listTasks(all, {}, { first: 2, after: page.pageInfo.endCursor }).nodes[0]?.ref).toBe(
      'draw-futtocks',
    );
  });
});
