import { newId, scratchKinds } from '@ribband/platform';
import { HoldPoints } from '../hold-points/hold-points.service.js';
import { Marks, type ReadingDraft } from '../marks/marks.service.js';
import { Planking } from '../planking/planking.service.js';
import { PlanView, type PlannedSpans } from '../plan-view/plan-view.js';
import { openSmallYard, plain, refusalOf, type SmallYard } from '../repair.fixture.js';
import { Shells } from '../shell/shell.service.js';
import { SaySos } from '../tallies/say-so.service.js';
import { Tasks } from '../tasks/tasks.service.js';
import { Links } from '../links/links.service.js';
import { HullSupport } from './hull-support.entity.js';
import { OpeningGate } from './opening-gate.js';
import { Openings } from './openings.service.js';
import { Supports } from './supports.service.js';
import { YardReports } from './yard-reports.service.js';

const day = 86_400_000;
const foot = 304.8;

describe.each(scratchKinds())('Opening her, on %s', (kind) => {
  let yard: SmallYard;
  let planned: PlannedSpans;
  let now: number;

  beforeAll(async () => {
    yard = await openSmallYard(kind);
    yard.get(PlanView).connect(() => Promise.resolve(planned));
  });
  beforeEach(async () => {
    await yard.renew();
    planned = new Map();
    now = Date.parse('2027-03-27T19:00:00Z');
  });
  afterAll(() => yard.close());

  const see = async (ref: string, isOpen: boolean) =>
    yard.get(YardReports).report(await yard.as('shipwright'), {
      element: await yard.idOf(ref),
      isOpen,
      seenBy: 'Marguerite Alkin',
      note: null,
    });
  /** Drawing frame 13, with frame 12 seen standing: by its tallies it is being set again. */
  const drawFrame13 = async () => {
    await see('frame-12', false);
    const task = await yard.get(Tasks).add(await yard.as('shipwright'), {
      ...plain,
      title: 'Frame 13: draw futtocks',
      opens: [await yard.idOf('frame-13')],
    });
    return task.id;
  };
  const messages = async (taskId: string, startsAt = now): Promise<string[]> => {
    const { read } = yard.database;
    const [stops] = await yard.get(OpeningGate).stops(read, yard.organisationId, [{ taskId, startsAt }]);
    return stops.map((stop) => stop.message);
  };

  it('frame 13 must wait while 12 is seen out, though the plan knew nothing of it', async () => {
    const taskId = await drawFrame13();
    expect(await messages(taskId)).toEqual([]);
    await see('frame-12', true);
    expect(await messages(taskId)).toEqual(['Frame 13 must wait: frame 12 is out.']);
    await see('frame-12', false);
    expect(await messages(taskId)).toEqual([]);
  });

  it('what the plan will have shut by then is no obstacle ahead of the day, but is on the day', async () => {
    const taskId = await drawFrame13();
    await see('frame-12', true);
    const closer = await yard.idOf('set-frame');
    planned = new Map([[closer, { startsAt: now + day, endsAt: now + 2 * day }]]);
    expect(await messages(taskId, now + 7 * day)).toEqual([]);
    expect(await messages(taskId, now + day)).toEqual(['Frame 13 must wait: frame 12 is out.']);
    expect(await messages(taskId)).toEqual(['Frame 13 must wait: frame 12 is out.']);
  });

  it('an override counts for its pieces until its day and no longer, and is listed while a limit is broken', async () => {
    const shipwright = await yard.as('shipwright');
    const taskId = await drawFrame13();
    await see('frame-12', true);
    await see('frame-13', true);
    const broken = () => yard.get(YardReports).broken(shipwright);
    expect((await broken()).map(({ limit, open }) => [limit.ref, open.length])).toEqual([
      ['frames-12-13', 2],
    ]);
    await yard
      .get(Openings)
      .setAside(shipwright, await yard.idOf('frames-12-13'), 1, 'cross spalls at both, read daily', {
        elementIds: [await yard.idOf('frame-12')],
        untilOn: '2027-03-31',
      });
    expect(await broken()).toEqual([]);
    await see('frame-13', false);
    expect(await messages(taskId)).toEqual([]);
    await yard.setClock('2027-04-01', '12:00');
    expect(await messages(taskId, now + 5 * day)).toEqual(['Frame 13 must wait: frame 12 is out.']);
    const wrong = yard
      .get(Openings)
      .setAside(shipwright, await yard.idOf('frames-12-13'), 2, 'cross spalls at both, read daily', {
        elementIds: ['element_of_nobody'],
      });
    expect(await refusalOf(wrong)).toMatchObject({ code: 'BAD_INPUT', field: 'elementIds' });
    const limit = await yard.idOf('frames-12-13');
    const frame12 = await yard.idOf('frame-12');
    const refused = async (scope: { elementIds?: string[]; untilOn?: string }) =>
      (
        await refusalOf(
          yard.get(Openings).setAside(shipwright, limit, 2, 'cross spalls at both, read daily', scope),
        )
      ).field;
    expect(await refused({ elementIds: [frame12, frame12] })).toBe('elementIds');
    for (const untilOn of ['0001-01-01', '2027-03-31']) expect(await refused({ untilOn })).toBe('untilOn');
  });

  it('a plank that no work was planned on can be reported, and then stands in the way', async () => {
    const reports = yard.get(YardReports);
    const volunteer = await yard.as('volunteer', 'marguerite-alkin');
    const seen = (strake: number) =>
      reports.report(volunteer, {
        element: `strake-${strake}-plank-2-starboard`,
        isOpen: true,
        seenBy: 'Marguerite Alkin',
        note: 'found off this morning',
      });
    for (const strake of [9, 10, 11, 12]) await seen(strake);
    const broken = await reports.broken(volunteer);
    expect(broken.length).toBeGreaterThan(0);
    expect(broken[0]?.open).toHaveLength(4);
    expect(broken[0]?.limit.name).toMatch(/^Strakes 9 to 12 starboard at frame \d+: at most 3 open$/);
    const shut = reports.report(volunteer, {
      element: 'strake-9-plank-2-starboard',
      isOpen: false,
      seenBy: 'Marguerite Alkin',
      note: null,
    });
    expect((await refusalOf(shut)).code).toBe('NOT_PERMITTED');
    const nothing = reports.report(volunteer, {
      element: 'mast',
      isOpen: true,
      seenBy: 'M. Alkin',
      note: null,
    });
    expect(await refusalOf(nothing)).toMatchObject({ code: 'NOT_FOUND', field: 'element' });
    const shell = await yard.get(Shells).shell(volunteer);
    const cell = shell?.sides[0]?.planks.find(({ key }) => key === 'strake-9-plank-2-starboard');
    expect(cell?.standing?.state).toBe('open');
    const butt = { strake: 9, bay: 10 };
    const layout = yard
      .get(Planking)
      .choose(await yard.as('shipwright'), 'starboard', [butt, butt], 'clear of the butts beside it');
    expect(await refusalOf(layout)).toMatchObject({ code: 'BAD_INPUT', field: 'butts[1].bay' });
  });

  it('a frame is not drawn where no shore or brace is on record', async () => {
    const shipwright = await yard.as('shipwright');
    const taskId = await drawFrame13();
    const supports = yard.get(Supports);
    const [shores] = await supports.list(shipwright);
    await supports.strike(shipwright, shores.support.id, 1);
    expect(await messages(taskId)).toEqual([
      expect.stringMatching(/^Frame 13 must wait: a shore .* is not on record\.$/),
      expect.stringMatching(/^Frame 13 must wait: a shore .* is not on record\.$/),
    ]);
    await supports.stands(shipwright, {
      kind: 'shore',
      side: 'starboard',
      firstFrame: 12,
      lastFrame: 14,
      seenBy: 'Emeric Holloran',
    });
    expect(await messages(taskId)).toEqual([]);
  });

  it('a support that its work has yet to set is not struck', async () => {
    const { organisationId, database } = yard;
    const id = newId('support');
    const taskId = await yard.idOf('set-frame');
    await database.write((manager) =>
      manager.insert(HullSupport, {
        ...{ id, organisationId, ref: 'brace-to-come', version: 1, kind: 'brace', side: null, taskId },
        ...{ firstFrame: null, lastFrame: null, seenOn: null, seenBy: null, struckOn: null, struckBy: null },
      }),
    );
    const strike = yard.get(Supports).strike(await yard.as('shipwright'), id, 1);
    expect(await refusalOf(strike)).toMatchObject({ code: 'BAD_INPUT', field: 'id' });
    expect(await database.read.findOneBy(HullSupport, { id })).toMatchObject({ struckOn: null, version: 1 });
  });

  describe('while she is watched', () => {
    const base = 198 * 25.4;
    const read = (on: string, moved: number, time: ReadingDraft['time'] = 'later'): ReadingDraft[] =>
      ['Odalys Brenn', 'Emeric Holloran'].flatMap((reader) =>
        [0, 0].map(() => ({ on, time, reader, millimetres: base + moved * 25.4 })),
      );
    const mark = async () => {
      const { mark: made } = await yard.get(Marks).add(await yard.as('shipwright'), {
        name: 'Breadth at frame 15',
        kind: 'breadth',
        frame: 15,
        everyDays: 7,
      });
      return made.id;
    };

    it('a mark lies at a frame of hers, and has a name of its own', async () => {
      await mark();
      const shipwright = await yard.as('shipwright');
      const add = async (name: string, frame: number) =>
        (await refusalOf(yard.get(Marks).add(shipwright, { name, kind: 'breadth', frame, everyDays: 7 })))
          .field;
      expect(await add('Breadth at frame 45', 45)).toBe('frame');
      expect(await add('  breadth at frame 15', 15)).toBe('name');
    });

    it('nothing is opened on the day before a mark has its baseline', async () => {
      const taskId = await drawFrame13();
      const id = await mark();
      expect(await messages(taskId)).toEqual([
        'Nothing is opened before her shape has been read after blocking.',
      ]);
      expect(await messages(taskId, now + 7 * day)).toEqual([]);
      await yard.get(Marks).enter(await yard.as('coordinator'), id, read('2027-03-20', 0, 'after blocking'));
      expect(await messages(taskId)).toEqual([]);
    });

    it('a breadth that opens by 3/16 in warns, and one by 1/4 in holds every opening until it is lifted', async () => {
      const shipwright = await yard.as('shipwright');
      const marks = yard.get(Marks);
      const taskId = await drawFrame13();
      const id = await mark();
      await marks.enter(shipwright, id, read('2027-03-06', 0, 'after blocking'));
      const warned = await marks.enter(shipwright, id, read('2027-03-20', 3 / 16));
      expect(warned.state).toMatchObject({ drift: { kind: 'warn' }, held: null });
      expect(warned.state.due).toEqual({ what: 'later', on: '2027-03-27' });
      expect(await messages(taskId)).toEqual([]);

      const [once] = read('2027-03-27', 1 / 4);
      const held = await marks.enter(shipwright, id, [once]);
      expect(held.state.held).toBe('Breadth at frame 15 has moved 1/4 in: every opening task is held');
      const hold = ['Nothing is opened: Breadth at frame 15 has moved 1/4 in: every opening task is held.'];
      expect(await messages(taskId)).toEqual(hold);
      expect(await messages(taskId, now + 30 * day)).toEqual(hold);

      await marks.enter(shipwright, id, read('2027-03-27', 0));
      expect(await messages(taskId)).toHaveLength(1);
      expect((await refusalOf(marks.lift(shipwright, id, 'fine'))).field).toBe('reason');
      expect((await refusalOf(marks.lift(await yard.as('director'), id, 'the tape had sagged'))).code).toBe(
        'NOT_PERMITTED',
      );
      await marks.lift(shipwright, id, 'the tape had sagged; read anew by both');
      expect(await messages(taskId)).toEqual([]);
    });

    it('a hold stands whatever is entered after it, and another baseline is the shipwright’s word', async () => {
      const [shipwright, coordinator] = [await yard.as('shipwright'), await yard.as('coordinator')];
      const marks = yard.get(Marks);
      const taskId = await drawFrame13();
      const id = await mark();
      await marks.enter(coordinator, id, read('2027-03-06', 0, 'after blocking'));
      const { state } = await marks.enter(coordinator, id, read('2027-03-20', 5 / 16));
      expect(state.held).toBe('Breadth at frame 15 has moved 5/16 in: every opening task is held');
      const anew = read('2027-03-27', 5 / 16, 'after blocking');
      const why = 'blocked anew under frame 15, all marks read again';
      expect(await refusalOf(marks.enter(coordinator, id, anew, why))).toMatchObject({
        code: 'NOT_PERMITTED',
      });
      expect(await refusalOf(marks.enter(shipwright, id, anew))).toMatchObject({ field: 'reason' });
      for (let time = 0; time < 4; time += 1) await marks.enter(shipwright, id, anew, why);
      const [now] = await marks.list(shipwright);
      expect(now.state).toMatchObject({ held: state.held, drift: { kind: 'steady' } });
      expect(await messages(taskId)).toEqual([`Nothing is opened: ${state.held ?? ''}.`]);
      await marks.lift(shipwright, id, 'blocked anew, shores looked at by both');
      expect(await messages(taskId)).toEqual([]);
      expect(await refusalOf(marks.enter(coordinator, id, anew, why))).toMatchObject({
        code: 'NOT_PERMITTED',
      });
    });

    it('a baseline of one reader opens nothing, though what is far from it holds', async () => {
      const shipwright = await yard.as('shipwright');
      const marks = yard.get(Marks);
      const taskId = await drawFrame13();
      const id = await mark();
      const blocked = read('2027-03-06', 0, 'after blocking');
      await marks.enter(shipwright, id, blocked.slice(0, 2));
      const unread = 'Nothing is opened before her shape has been read after blocking.';
      expect(await messages(taskId)).toEqual([unread]);
      const { state } = await marks.enter(shipwright, id, read('2027-03-20', 1 / 4));
      expect(state).toMatchObject({ drift: { kind: 'no baseline' }, due: { what: 'after blocking' } });
      expect(await messages(taskId)).toEqual([expect.stringMatching(/1\/4 in/), unread]);
      await marks.lift(shipwright, id, 'the tape had sagged; read anew by both');
      expect(await messages(taskId)).toEqual([unread]);
      await marks.enter(shipwright, id, blocked.slice(2), 'Emeric Holloran read it too that day');
      expect(await messages(taskId)).toEqual([]);
    });

    it('a reading is struck once, and its first reason stays', async () => {
      const shipwright = await yard.as('shipwright');
      const marks = yard.get(Marks);
      const id = await mark();
      const { readings } = await marks.enter(shipwright, id, read('2027-03-06', 0, 'after blocking'));
      const strike = (reason: string) => marks.strike(shipwright, readings[0]?.id ?? '', reason);
      await strike('the tape hung on a nail head');
      expect(await refusalOf(strike('something else entirely'))).toMatchObject({ field: 'readingId' });
      const [now] = await marks.list(shipwright);
      expect(now.readings[0]?.struckReason).toBe('the tape hung on a nail head');
    });

    it('a reading that cannot be is refused by its field', async () => {
      const id = await mark();
      const enter = async (over: Partial<ReadingDraft>) => {
        const [draft] = read('2027-03-20', 0);
        return refusalOf(yard.get(Marks).enter(await yard.as('shipwright'), id, [{ ...draft, ...over }]));
      };
      expect((await enter({ on: '2027-03-28' })).field).toBe('readings[0].on');
      for (const [time, on] of [
        ['after blocking', '0001-01-01'],
        ['after blocking', '2027-03-05'],
        ['later', '2027-03-05'],
        ['afloat', '2027-03-07'],
      ] as const)
        expect((await enter({ time, on })).field).toBe('readings[0].on');
      expect((await enter({ reader: ' ' })).field).toBe('readings[0].reader');
      expect((await enter({ millimetres: 400 * foot })).field).toBe('readings[0].millimetres');
    });
  });

  it('nothing is closed over before the surveyor has seen it, and he is told in time', async () => {
    const shipwright = await yard.as('shipwright');
    const points = yard.get(HoldPoints);
    const look = await yard.get(Tasks).add(shipwright, {
      ...plain,
      title: 'The surveyor sees frame 12',
      kind: 'hold',
      estimate: null,
      crew: { min: 0, efficient: 0, max: 0 },
    });
    const closer = await yard.idOf('set-frame');
    await yard.get(Links).add(shipwright, {
      beforeId: look.id,
      afterId: closer,
      relation: 'finish-to-start',
      lagMinutes: 0,
      lagKind: 'elapsed',
    });
    planned = new Map([[look.id, { startsAt: now + 10 * day, endsAt: now + 10 * day }]]);
    const bound = await points.bind(shipwright, look.id, 'surveyor', 7);
    expect(bound).toMatchObject({ plannedOn: '2027-04-06', noticeBy: '2027-03-30', isLate: false });
    const waits = ['Nothing is closed over before it is seen: The surveyor sees frame 12.'];
    expect(await messages(closer)).toEqual(waits);
    expect(await messages(closer, now + 5 * day)).toEqual(waits);
    expect(await messages(closer, now + 11 * day)).toEqual([]);
    const pass = () => yard.get(SaySos).pass(shipwright, look.id, null);
    expect(await refusalOf(pass())).toMatchObject({ code: 'NOT_SEEN', field: 'taskId' });
    await points.notice(shipwright, [look.id], '2027-03-18', 'Perrin Vaskell');
    await points.seen(shipwright, [look.id], { on: '2027-03-27', by: 'the surveyor', note: null });
    expect(await messages(closer)).toEqual([]);
    const days = await points.bind(shipwright, look.id, 'surveyor', 3);
    expect(days.point).toMatchObject({ noticeOn: '2027-03-18', seenBy: 'the surveyor', noticeDays: 3 });
    const { point } = await points.bind(shipwright, look.id, 'insurer', 3);
    expect(point).toMatchObject({
      eyes: 'insurer',
      noticeOn: null,
      noticeBy: null,
      seenOn: null,
      seenBy: null,
    });
    expect(await messages(closer)).toEqual(waits);
    expect(await refusalOf(pass())).toMatchObject({ code: 'NOT_SEEN' });
    await points.seen(shipwright, [look.id], { on: '2027-03-27', by: 'the insurer', note: null });
    await pass();
  });

  it('a piece is not drawn before a named person has seen sling and cleared zone', async () => {
    const shipwright = await yard.as('shipwright');
    const taskId = await drawFrame13();
    const sling = await yard.get(Tasks).add(shipwright, {
      ...plain,
      title: 'Frame 13: slung and clear',
      kind: 'hold',
      estimate: null,
      crew: { min: 0, efficient: 0, max: 0 },
    });
    await yard.get(Links).add(shipwright, {
      beforeId: sling.id,
      afterId: taskId,
      relation: 'finish-to-start',
      lagMinutes: 0,
      lagKind: 'elapsed',
    });
    await yard.get(HoldPoints).bind(shipwright, sling.id, 'sling', 0);
    expect(await messages(taskId)).toEqual(['Nobody has said that they saw it: Frame 13: slung and clear.']);
    expect(await messages(taskId, now + 7 * day)).toEqual([]);
    const points = yard.get(HoldPoints);
    const why = 'the piece is lifted by the yard, in the yard’s own gear';
    const other = points.bind(await yard.as('director'), sling.id, 'surveyor', 0, why);
    expect((await refusalOf(other)).code).toBe('NOT_PERMITTED');
    expect((await refusalOf(points.bind(shipwright, sling.id, 'surveyor', 0))).field).toBe('reason');
    expect(await messages(taskId)).toHaveLength(1);
    await yard
      .get(HoldPoints)
      .seen(shipwright, [sling.id], { on: '2027-03-27', by: 'Emeric Holloran', note: null });
    expect(await messages(taskId)).toEqual([]);
    const { point } = await points.bind(shipwright, sling.id, 'surveyor', 0, why);
    expect(point).toMatchObject({ eyes: 'surveyor', seenBy: null });
  });
});
