import { buildHull } from '@ribband/hull';
import { scratchKinds } from '@ribband/platform';
import fc from 'fast-check';
import { Link } from '../links/link.entity.js';
import { openSmallYard, plain, refusalOf, type SmallYard } from '../repair.fixture.js';
import { effectiveTallies } from '../tallies/effective-tallies.js';
import { SaySos } from '../tallies/say-so.service.js';
import { Tallies } from '../tallies/tallies.service.js';
import { TallyEntity } from '../tallies/tally.entity.js';
import { Task } from '../tasks/task.entity.js';
import { Tasks } from '../tasks/tasks.service.js';
import { CareLevels } from './care.service.js';
import { FasteningKinds } from './fastening-kinds.service.js';
import { followOutline } from './follow-outline.js';
import { HoleBook } from './hole-book.service.js';
import { Lot } from './lot.entity.js';
import { PlankRepairs } from './plank-repairs.service.js';
import { entriesOf } from './tray.records.js';
import type { TrayWords } from './tray-draft.js';
import { countOf, outKinds } from './tray-line.js';
import { entriesThatCount, newHolesIn, standingOf, type TrayStanding } from './tray-standing.js';
import { TrayYard } from './tray-yard.service.js';
import { Tray } from './tray.entity.js';
import { Trays, type TrayWork } from './trays.service.js';

const nothing: TrayWords = {
  frame: null,
  counts: {},
  leftReason: null,
  lostReason: null,
  holes: [],
  counted: null,
  lotId: null,
  note: null,
};
const say = (counts: TrayWords['counts'], over: Partial<TrayWords> = {}): TrayWords => ({
  ...nothing,
  counts,
  ...over,
});
const anHour: TrayWork = { minutes: 60, finished: false, volunteerId: null, turnoutId: null, on: null };
const noWork: TrayWork = { ...anHour, minutes: 0 };

describe.each(scratchKinds())('Trays, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(async () => {
    await yard.renew();
    const shipwright = await yard.as('shipwright');
    for (const plank of ['strake 11 plank 1 starboard', 'strake 11 plank 2 starboard']) {
      for (const step of ['pull nails', 'lift off', 'steam hang', 'drive nails'])
        await yard.get(Tasks).add(shipwright, {
          ...plain,
          title: `${plank} ${step}`,
          ...(step.endsWith('nails')
            ? {
                estimate: {
                  by: 'count' as const,
                  unit: 'nails',
                  count: 20,
                  perPersonHour: { low: 3, likely: 5, high: 8 },
                },
              }
            : {}),
        });
    }
    await yard.get(TrayYard).setUp(shipwright);
  });
  afterAll(() => yard.close());

  const shipwright = () => yard.as('shipwright');
  const volunteer = () => yard.as('volunteer', 'marguerite-alkin');
  const tray = (name: string): Promise<Tray> =>
    yard.database.read.findOneByOrFail(Tray, { organisationId: yard.organisationId, name });
  const standing = async (name: string): Promise<TrayStanding> => {
    const found = await tray(name);
    const stands = standingOf(found, await entriesOf(yard.database.read, found.id));
    if ('fault' in stands) throw new Error(stands.fault.message);
    return stands;
  };
  const taskOf = (ref: string): Promise<Task> =>
    yard.database.read.findOneByOrFail(Task, { organisationId: yard.organisationId, ref });
  const talliesOf = async (ref: string) => {
    const { id } = await taskOf(ref);
    const rows = await yard.database.read.find(TallyEntity, { where: { taskId: id }, order: { id: 'ASC' } });
    return effectiveTallies(rows).map(({ tally }) => tally);
  };
  const enter = async (name: string, said: TrayWords, work = noWork) =>
    yard.get(Trays).enter(await shipwright(), (await tray(name)).id, said, work);
  const lastEntry = async (name: string) => {
    const rows = await entriesOf(yard.database.read, (await tray(name)).id);
    return rows.at(-1)?.id ?? '';
  };

  it('one for each plank whose nails some task draws, with what the hull has there, and none twice', async () => {
    const first = await tray('S11A');
    expect(first).toMatchObject({ elementKey: 'strake-11-plank-1-starboard', fastening: 'plank nails' });
    expect(first.driveRef).toBe('strake-11-plank-1-starboard-drive-nails');
    expect(first.inPlace).toBe(first.frames.reduce((sum, one) => sum + one.inPlace, 0));
    expect(first.inPlace).toBeGreaterThan(10);
    expect(await yard.get(TrayYard).setUp(await shipwright())).toEqual([]);
  });

  it('"11 drawn, 1 pulled through, 2 heads off" is one entry: the tray has it and so has the tally', async () => {
    const before = await yard.revision();
    await enter('S11A', say({ drawn: 11, 'pulled through': 1, cut: 2 }), anHour);
    expect((await standing('S11A')).balance).toMatchObject({
      drawn: 11,
      pulledThrough: 1,
      cut: 2,
      stubsWaiting: 2,
      notGraded: 12,
      plankRepairs: 1,
    });
    expect(await talliesOf('strake-11-plank-1-starboard-pull-nails')).toMatchObject([
      { count: 14, minutes: 60 },
    ]);
    expect(await yard.revision()).toBe(before + 1);
  });

  it('a plain tally of pulling is an entry of its tray, and one that is too high is refused whole', async () => {
    const taskId = (await taskOf('strake-11-plank-1-starboard-pull-nails')).id;
    const tally = {
      taskId,
      volunteerId: null,
      turnoutId: null,
      on: null,
      minutes: 30,
      finished: false,
      note: null,
    };
    const tallies = yard.get(Tallies);
    await tallies.enter(await volunteer(), { ...tally, count: 8 });
    expect((await standing('S11A')).balance.drawn).toBe(8);
    const { inPlace } = await tray('S11A');
    const refused = await refusalOf(tallies.enter(await volunteer(), { ...tally, count: inPlace }));
    expect(refused).toMatchObject({ code: 'NEGATIVE_COUNT', field: 'drawn' });
    expect(refused.message).toContain('8 more than there are (still in place)');
    expect(await talliesOf('strake-11-plank-1-starboard-pull-nails')).toHaveLength(1);
  });

  it('work that is sent back goes out of its tray as well, and what is corrected later counts from there', async () => {
    const task = await taskOf('strake-11-plank-1-starboard-pull-nails');
    const plainly = async (count: number) =>
      yard.get(Tallies).enter(await shipwright(), {
        taskId: task.id,
        volunteerId: null,
        turnoutId: null,
        on: null,
        count,
        minutes: 10,
        finished: false,
        note: null,
      });
    await plainly(8);
    await plainly(2);
    const drawn = 10;
    const back = { count: 3, minutes: null, reason: 'three stand under the paint' };
    await yard.get(SaySos).sendBack(await shipwright(), task.id, back);
    expect((await standing('S11A')).balance.drawn).toBe(drawn - 3);
    const [plain] = await talliesOf(task.ref);
    const right = {
      count: (plain.count ?? 0) + 1,
      minutes: plain.minutes,
      finished: null,
      reason: 'miscounted',
    };
    await yard.get(Tallies).correct(await shipwright(), plain.id, right);
    expect((await standing('S11A')).balance.drawn).toBe(drawn - 2);
    const fewer = { ...right, count: plain.count };
    const newest = (await talliesOf(task.ref))[0];
    await yard.get(Tallies).correct(await shipwright(), newest.id, fewer);
    expect((await standing('S11A')).balance.drawn).toBe(drawn - 3);
    // Three are drawn after all: everything stands as it did.
    await plainly(3);
    expect((await standing('S11A')).balance.drawn).toBe(drawn);
  });

  it('a correction at the tray corrects its tally, and both wrong ones stay on record', async () => {
    await enter('S11A', say({ drawn: 11, cut: 2 }), anHour);
    const right = { minutes: null, finished: null, reason: 'two were from the next plank' };
    await yard
      .get(Trays)
      .correct(await shipwright(), await lastEntry('S11A'), say({ drawn: 9, cut: 2 }), right);
    expect((await standing('S11A')).balance).toMatchObject({ drawn: 9, cut: 2 });
    expect(await talliesOf('strake-11-plank-1-starboard-pull-nails')).toMatchObject([
      { count: 11, minutes: 60 },
    ]);
    expect(await entriesOf(yard.database.read, (await tray('S11A')).id)).toHaveLength(2);
  });

  it('a tally that was more than a count is corrected at its tray; a plain one takes its entry along', async () => {
    const tallies = yard.get(Tallies);
    const right = { minutes: 45, finished: null, reason: 'miscounted' };
    await enter('S11A', say({ drawn: 4, cut: 1 }), anHour);
    const [mixed] = await talliesOf('strake-11-plank-1-starboard-pull-nails');
    const refused = await refusalOf(tallies.correct(await shipwright(), mixed.id, { ...right, count: 4 }));
    expect(refused.remedy).toContain('tray S11A');
    // The hours alone can be put right anywhere.
    await tallies.correct(await shipwright(), mixed.id, { ...right, count: 5 });
    await enter('S11B', say({ drawn: 4 }), anHour);
    const [plainOne] = await talliesOf('strake-11-plank-2-starboard-pull-nails');
    await tallies.correct(await shipwright(), plainOne.id, { ...right, count: 3 });
    expect((await standing('S11B')).balance.drawn).toBe(3);
    await yard
      .get(Trays)
      .correct(await shipwright(), await lastEntry('S11B'), say({ drawn: 6 }), { ...right, minutes: null });
    expect(await talliesOf('strake-11-plank-2-starboard-pull-nails')).toMatchObject([
      { count: 6, minutes: 45 },
    ]);
  });

  it('nothing is driven from a tray that has nothing sound or bought: refused, and no tally is left behind', async () => {
    await enter('S11A', say({ drawn: 10 }));
    const refused = await refusalOf(enter('S11A', say({ driven: 4 }), anHour));
    expect(refused).toMatchObject({ code: 'NEGATIVE_COUNT', field: 'driven' });
    expect(await talliesOf('strake-11-plank-1-starboard-drive-nails')).toEqual([]);
    await enter('S11A', say({ sound: 7, scrapped: 3 }));
    await enter('S11A', say({ driven: 4 }), anHour);
    expect((await standing('S11A')).balance).toMatchObject({ inTray: 3, driven: 4 });
    expect(await talliesOf('strake-11-plank-1-starboard-drive-nails')).toMatchObject([{ count: 4 }]);
  });

  it('what comes out and what goes back are two entries; hours without work are refused', async () => {
    expect(await refusalOf(enter('S11A', say({ drawn: 2, driven: 1 })))).toMatchObject({ field: 'driven' });
    await enter('S11A', say({ drawn: 2 }));
    expect(await refusalOf(enter('S11A', say({ sound: 1 }), anHour))).toMatchObject({ field: 'minutes' });
    expect(await refusalOf(enter('S11A', nothing))).toMatchObject({ code: 'BAD_INPUT' });
    expect(await refusalOf(enter('S11A', say({ drawn: -1 })))).toMatchObject({ field: 'drawn' });
    expect(await refusalOf(enter('S11A', say({ drawn: 1 }, { frame: 44 })))).toMatchObject({
      field: 'frame',
    });
    expect(await refusalOf(enter('S11A', say({ lost: 1 })))).toMatchObject({ field: 'lostReason' });
  });

  it('a frame cannot give more nails than go into it', async () => {
    const { frames } = await tray('S11A');
    const frame = frames[0].frame;
    const inPlace = frames[0].inPlace;
    await enter('S11A', say({ drawn: inPlace - 1, cut: 1 }, { frame }));
    expect((await standing('S11A')).frames[0]?.balance).toMatchObject({
      stillIn: 0,
      drawn: inPlace - 1,
      cut: 1,
    });
    const refused = await refusalOf(enter('S11A', say({ drawn: 1 }, { frame })));
    expect(refused.message).toContain(`At frame ${frame}`);
  });

  it('two trays that were mixed, nine nails short, are counted, told, and settled with a reason', async () => {
    await enter('S11A', say({ drawn: 16 }));
    await enter('S11B', say({ drawn: 16 }));
    await enter('S11A', { ...nothing, counted: 20 });
    await enter('S11B', { ...nothing, counted: 3 });
    expect([(await standing('S11A')).off, (await standing('S11B')).off]).toEqual([4, -13]);
    const kinds = await yard.get(FasteningKinds).all(await shipwright());
    expect(kinds[0]?.wanting.join(' ')).toContain('S11B was counted 13 short');
    const [from, to] = [(await tray('S11B')).id, (await tray('S11A')).id];
    const move = yard.get(Trays);
    const tooMany = await refusalOf(move.move(await shipwright(), from, to, 17, 'mixed up'));
    expect(tooMany).toMatchObject({ code: 'NEGATIVE_COUNT', field: 'count' });
    await move.move(await shipwright(), from, to, 4, 'both trays were tipped into one bucket');
    await enter('S11B', say({ lost: 9 }, { lostReason: 'looked for under the staging, not found' }));
    expect([(await standing('S11A')).off, (await standing('S11B')).off]).toEqual([0, 0]);
    expect((await standing('S11B')).balance).toMatchObject({ lent: 4, lost: 9, notGraded: 3 });
    expect((await refusalOf(move.move(await volunteer(), from, to, 1, 'for fun'))).code).toBe(
      'NOT_PERMITTED',
    );
  });

  it('each hole is graded once, an enlarged one with its plug, and new holes in kept timber are told', async () => {
    const found = await tray('S11A');
    const holes = await yard.get(HoleBook).holesOf(yard.database.read, found);
    expect(holes).toHaveLength(found.inPlace);
    await enter('S11A', say({ drawn: 4 }));
    const grade = (at: number, over = {}) => ({
      key: holes[at]?.key ?? '',
      nail: 'sound' as const,
      hole: 'sound' as const,
      plugTenths: null,
      ...over,
    });
    const worn = { hole: 'enlarged' as const, plugTenths: 160 };
    await enter('S11A', { ...nothing, holes: [grade(0), grade(1, worn), grade(2, { nail: 'scrap' })] });
    const { balance, holes: graded } = await standing('S11A');
    expect(balance).toMatchObject({ sound: 2, scrapped: 1, notGraded: 1 });
    expect(newHolesIn(graded, () => false)).toEqual({ graded: 3, newHoles: 1, inNewWood: 0 });
    expect(newHolesIn(graded, (key) => key === holes[0]?.key)).toEqual({
      graded: 3,
      newHoles: 2,
      inNewWood: 1,
    });
    for (const wrong of [[grade(0)], [grade(3, { hole: 'enlarged' })], [grade(3, { plugTenths: 90 })]])
      expect(await refusalOf(enter('S11A', { ...nothing, holes: wrong }))).toMatchObject({ field: 'holes' });
    const stranger = await refusalOf(
      enter('S11A', { ...nothing, holes: [{ ...grade(3), key: 'strake-1-plank-1-port-frame-3-aft-1' }] }),
    );
    expect(stranger).toMatchObject({ code: 'BAD_INPUT', field: 'holes' });
  });

  it('no more goes into trays than a lot holds, and a correction gives it back', async () => {
    const lot = await yard.get(TrayYard).addLot(await shipwright(), {
      name: 'Galvanized boat nails',
      fastening: 'plank nails',
      size: '3/8 x 5 1/2 in',
      count: 10,
      source: 'the society’s store',
      priceCents: null,
      cameOn: '2027-03-20',
    });
    const lotId = lot.id;
    await enter('S11A', say({ bought: 6 }, { lotId }));
    expect(await refusalOf(enter('S11B', say({ bought: 5 }, { lotId })))).toMatchObject({ field: 'bought' });
    expect(await refusalOf(enter('S11B', say({ bought: 1 })))).toMatchObject({ field: 'lotId' });
    expect(await refusalOf(enter('S11B', say({ bought: 1 }, { lotId: 'lot_none' })))).toMatchObject({
      ...{ code: 'NOT_FOUND', field: 'lotId' },
    });
    const bolts = { ...lot, fastening: 'bolts' };
    expect(await refusalOf(yard.get(TrayYard).addLot(await shipwright(), bolts))).toMatchObject({
      field: 'fastening',
    });
    await yard.database.write((manager) => manager.insert(Lot, { ...bolts, id: 'lot_bolts', ref: 'bolts' }));
    expect(await refusalOf(enter('S11B', say({ bought: 1 }, { lotId: 'lot_bolts' })))).toMatchObject({
      field: 'lotId',
    });
    await yard.database.write((manager) => manager.delete(Lot, { id: 'lot_bolts' }));
    const right = { minutes: null, finished: null, reason: 'were four' };
    await yard
      .get(Trays)
      .correct(await shipwright(), await lastEntry('S11A'), say({ bought: 4 }, { lotId }), right);
    await enter('S11B', say({ bought: 5 }, { lotId }));
    const [kindOf] = await yard.get(FasteningKinds).all(await shipwright());
    expect(kindOf).toMatchObject({ inLots: 1, balance: { bought: 9 } });
    // Each hole takes one.
    const { inPlace } = await tray('S11B');
    await yard.database.write((manager) => manager.update(Lot, { id: lotId }, { count: 10_000 }));
    await enter('S11B', say({ bought: inPlace }, { lotId }));
    expect(await refusalOf(enter('S11B', say({ driven: inPlace + 1 }), anHour))).toMatchObject({
      ...{ code: 'NEGATIVE_COUNT', field: 'driven' },
    });
    const future = { ...lot, cameOn: '2027-04-20' };
    expect(await refusalOf(yard.get(TrayYard).addLot(await shipwright(), future))).toMatchObject({
      field: 'cameOn',
    });
    // Dearer than a yard document may have it: the yard's own file could not be read in again.
    const dear = { ...lot, priceCents: 2_147_483_647 };
    expect(await refusalOf(yard.get(TrayYard).addLot(await shipwright(), dear))).toMatchObject({
      field: 'priceCents',
    });
  });

  it('a tray holds what the outline says; one of which more was entered keeps the outline from changing', async () => {
    const { organisationId } = yard;
    const hull = await yard.get(HoleBook).hullOf(yard.database.read, organisationId);
    if (!hull) throw new Error('the small yard has a hull');
    const follow = (nails: number) =>
      yard.database.write((manager) =>
        followOutline(
          manager,
          organisationId,
          buildHull({
            ...hull.outline,
            exceptions: [{ strakes: [11, 11], nailsAtFrame: nails }],
          }),
        ),
      );
    const before = await tray('S11A');
    await follow(7);
    const after = await tray('S11A');
    expect(after.inPlace).not.toBe(before.inPlace);
    expect(after.inPlace).toBe(7 * after.frames.length);
    await enter('S11A', say({ drawn: after.inPlace }));
    expect(await refusalOf(follow(2))).toMatchObject({ code: 'BAD_INPUT', field: 'outline' });
    expect((await tray('S11A')).inPlace).toBe(after.inPlace);
  });

  it('a head that came through asks for a repair, which the shipwright makes a task of, or not, with a reason', async () => {
    await enter('S11A', say({ 'pulled through': 2 }));
    const id = (await tray('S11A')).id;
    const repairs = yard.get(PlankRepairs);
    expect((await refusalOf(repairs.confirm(await yard.as('coordinator'), id))).code).toBe('NOT_PERMITTED');
    await repairs.confirm(await shipwright(), id);
    const task = await yard.database.read.findOneByOrFail(Task, {
      organisationId: yard.organisationId,
      unit: 'repairs',
    });
    expect(task).toMatchObject({ count: 2 });
    const hang = await taskOf('strake-11-plank-1-starboard-steam-hang');
    expect(await yard.database.read.existsBy(Link, { beforeId: task.id, afterId: hang.id })).toBe(true);
    expect((await refusalOf(repairs.confirm(await shipwright(), id))).code).toBe('TASK_NOT_READY');
    await enter('S11A', say({ 'pulled through': 1 }));
    expect(await refusalOf(repairs.decline(await shipwright(), id, ' '))).toMatchObject({ field: 'reason' });
    await repairs.decline(await shipwright(), id, 'it goes under the butt block');
    expect((await refusalOf(repairs.decline(await shipwright(), id, 'again'))).code).toBe('TASK_NOT_READY');
  });

  it('a level of care is chosen with all three side by side, and changes the rate of what is not begun', async () => {
    const levels = yard.get(CareLevels);
    const [before] = await levels.sideBySide(await shipwright());
    expect(before).toMatchObject({ fastening: 'plank nails', count: 40, chosen: null });
    const hours = before.choices.map((choice) => choice.personHours);
    expect(hours[0]).toBeGreaterThan(hours[1]);
    await enter('S11A', say({ drawn: 1 }), anHour);
    const revision = await yard.revision();
    await levels.choose(await shipwright(), 'plank nails', 'save all', 'the original nails are part of her');
    expect(await taskOf('strake-11-plank-2-starboard-pull-nails')).toMatchObject({ likely: 3, high: 5 });
    expect(await taskOf('strake-11-plank-1-starboard-pull-nails')).toMatchObject({ likely: 5 });
    expect(await yard.revision()).toBe(revision + 1);
    const [after] = await levels.sideBySide(await shipwright());
    expect(after).toMatchObject({ count: 20, chosen: { care: 'save all', tasksChanged: 1 } });
    const wrong = levels.choose(await shipwright(), 'treenails', 'renew', 'why not');
    expect(await refusalOf(wrong)).toMatchObject({ field: 'fastening' });
  });

  it('another yard’s tray, a volunteer’s correction of somebody else’s entry: refused', async () => {
    const id = (await tray('S11A')).id;
    await enter('S11A', say({ drawn: 2 }));
    const entry = await lastEntry('S11A');
    const right = { minutes: null, finished: null, reason: 'mine' };
    const other = yard.get(Trays).correct(await volunteer(), entry, say({ drawn: 1 }), right);
    expect((await refusalOf(other)).code).toBe('NOT_PERMITTED');
    await yard.renew();
    const foreign = yard.get(Trays).enter(await shipwright(), id, say({ drawn: 1 }), noWork);
    expect(await refusalOf(foreign)).toMatchObject({ code: 'NOT_FOUND', field: 'trayId' });
  });

  it('whatever is entered, corrected and moved, nothing is ever below zero, and tallies and trays agree', async () => {
    const count = fc.integer({ min: 0, max: 9 });
    const words = fc.record({
      drawn: count,
      'pulled through': fc.integer({ min: 0, max: 1 }),
      cut: fc.integer({ min: 0, max: 2 }),
      punched: fc.integer({ min: 0, max: 1 }),
      sound: count,
      scrapped: fc.integer({ min: 0, max: 3 }),
    });
    const step = fc.oneof(
      words.map((counts) => ({ do: 'enter' as const, counts })),
      fc.record({ do: fc.constant('drive' as const), driven: count }),
      fc.record({ do: fc.constant('correct' as const), at: fc.nat(20), counts: words }),
      fc.record({ do: fc.constant('move' as const), count: fc.integer({ min: 1, max: 9 }) }),
    );
    const names = ['S11A', 'S11B'];
    let refused = 0;
    let done = 0;
    await fc.assert(
      fc.asyncProperty(fc.array(fc.tuple(fc.nat(1), step), { minLength: 4, maxLength: 9 }), async (steps) => {
        const caller = await shipwright();
        const trays = await Promise.all(names.map(tray));
        for (const [which, one] of steps) {
          const [here, there] = which === 0 ? trays : [...trays].reverse();
          const service = yard.get(Trays);
          const rows = await entriesOf(yard.database.read, here.id);
          const act = (): Promise<unknown> => {
            if (one.do === 'move')
              return service.move(caller, here.id, there.id, one.count, 'to even them out');
            if (one.do === 'drive')
              return service.enter(caller, here.id, say({ driven: one.driven }), noWork);
            if (one.do === 'enter') return service.enter(caller, here.id, say(one.counts), noWork);
            const id = rows[one.at % Math.max(rows.length, 1)]?.id ?? 'trayentry_0';
            const right = { minutes: null, finished: null, reason: 'miscounted' };
            return service.correct(caller, id, say(one.counts), right);
          };
          try {
            await act();
            done += 1;
          } catch (error) {
            await expect(Promise.reject(error as Error)).rejects.toHaveProperty('refusal');
            refused += 1;
          }
          for (const each of trays) {
            const all = await entriesOf(yard.database.read, each.id);
            const stands = standingOf(each, all);
            if ('fault' in stands) throw new Error(stands.fault.message);
            for (const value of Object.values(stands.balance)) expect(value).toBeGreaterThanOrEqual(0);
            const lines = entriesThatCount(all).flatMap((entry) => entry.lines);
            const tallied = async (ref: string | null) =>
              (await talliesOf(ref ?? '')).reduce((sum, tally) => sum + (tally.count ?? 0), 0);
            expect(await tallied(each.pullRef)).toBe(countOf(lines, outKinds));
            expect(await tallied(each.driveRef)).toBe(countOf(lines, ['driven']));
          }
        }
      }),
      { numRuns: 12 },
    );
    expect(done).toBeGreaterThan(5);
    expect(refused).toBeGreaterThan(5);
  });
});
