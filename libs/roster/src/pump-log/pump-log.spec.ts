import { Account, Audit, type Caller, Membership } from '@ribband/access';
import { type DatabaseKind, newId, RealClock, RefusalError, scratchKinds } from '@ribband/platform';
import { Deeds } from '../deeds/deeds.service.js';
import { hoursAt } from '../hours/hours.fixture.js';
import { TestYard } from '../roster.fixture.js';
import { laySpecial } from '../turnouts/special-turnouts.js';
import { layWatches } from '../watches/lay-watches.js';
import { PumpEntryEntity } from './pump-entry.entity.js';
import { PumpLogResolver } from './pump-log.resolver.js';
import { type PumpDraft, PumpLogs } from './pump-log.service.js';

const refusalOf = async (asked: Promise<unknown>) => {
  const error: unknown = await asked.then(
    () => null,
    (thrown: unknown) => thrown,
  );
  if (!(error instanceof RefusalError)) throw new Error(`not refused: ${String(error)}`);
  return error.refusal;
};

describe.each(scratchKinds())('The pump log, on %s', (kind: DatabaseKind) => {
  let yard: TestYard;
  let logs: PumpLogs;
  let coordinator: Caller;
  let onWatch: Caller;
  let ashore: Caller;
  let watchIds: string[];
  let clockAt: (time: string) => Promise<void>;
  let round: (change?: Partial<PumpDraft>) => PumpDraft;

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    const { database, bus, clock } = yard.at;
    const { organisationId } = yard;
    const real = new RealClock();
    logs = new PumpLogs(database, clock, new Audit(real), bus, new Deeds(database, real));
    coordinator = yard.caller('coordinator');
    onWatch = { ...(await yard.hand('hand-1')), name: 'hand-1' };
    ashore = await yard.hand('hand-2');
    const dated = layWatches(
      { on: '2027-03-06', startTime: '10:00', all: 480, each: 240 },
      'America/Los_Angeles',
    );
    const watches = await database.write((manager) =>
      laySpecial(manager, organisationId, { kind: 'watch', note: null, now: 0 }, dated),
    );
    watchIds = watches.map(({ id }) => id);
    const taskId = await yard.addTask('Float watch');
    for (const turnoutId of watchIds)
      await yard.addPlace({ turnoutId, taskId, volunteerId: onWatch.volunteerId, state: 'taken' });
    clockAt = (time) => hoursAt(yard.at).clockAt(yard, '2027-03-06', time);
    await clockAt('11:05');
    round = (change = {}) => ({
      ...{ turnoutId: watchIds[0], read: { on: '2027-03-06', time: '11:00' }, doneBy: 'hand-1' },
      ...{
        depthMillimetres: 100,
        strokes: null,
        minutes: null,
        remark: null,
        correctsId: null,
        reason: null,
      },
      ...change,
    });
  });
  afterEach(() => yard.close());

  const at = (time: string) => ({ read: { on: '2027-03-06', time } });

  it('is written by who is on the watch or leads, once a press, and read by all', async () => {
    expect(await logs.of(ashore, watchIds[0])).toMatchObject({ mayWrite: false, lines: [] });
    expect(await refusalOf(logs.write(ashore, round()))).toMatchObject({ code: 'NOT_PERMITTED' });
    await logs.write(onWatch, round(), 'one press');
    expect((await logs.write(onWatch, round(), 'one press')).lines).toHaveLength(1);
    await logs.write(coordinator, round({ ...at('11:05'), strokes: 0 }));
    const log = await logs.of(ashore, null);
    expect(log?.turnout.id).toBe(watchIds[0]);
    expect(log?.lines.map(({ now }) => [now.strokes, now.writtenBy])).toEqual([
      [0, 'coordinator'],
      [null, 'hand-1'],
    ]);
  });

  it('takes no time to come, none off the watch, no round without a figure, and no figure below nothing', async () => {
    const fieldOf = async (change: Partial<PumpDraft>) =>
      (await refusalOf(logs.write(onWatch, round(change)))).field;
    expect(await fieldOf(at('11:30'))).toBe('input.read');
    expect(await fieldOf(at('08:30'))).toBe('input.read');
    expect(await fieldOf({ depthMillimetres: null })).toBe('input.depthMillimetres');
    expect(await fieldOf({ strokes: -1 })).toBe('input.strokes');
    expect(await fieldOf({ minutes: 2000 })).toBe('input.minutes');
    expect(await fieldOf({ doneBy: ' ' })).toBe('input.doneBy');
    const usual = await yard.at.turnouts.add(coordinator, {
      ...{ on: '2027-03-08', startTime: '09:00', endTime: '12:00' },
    });
    const notFound = (field: string) => ({ code: 'NOT_FOUND', field });
    expect(await refusalOf(logs.of(coordinator, usual.id))).toMatchObject(notFound('turnoutId'));
    const there = round({ turnoutId: usual.id });
    expect(await refusalOf(logs.write(onWatch, there))).toMatchObject(notFound('input.turnoutId'));
  });

  it('can be put right also where no more rounds go into it', async () => {
    const [{ now: first }] = (await logs.write(onWatch, round())).lines;
    await yard.at.database.write(async (manager) => {
      const others = Array.from({ length: 499 }, () => ({ ...first, id: newId('pumpentry') }));
      await manager.insert(PumpEntryEntity, others);
    });
    expect(await refusalOf(logs.write(onWatch, round()))).toMatchObject({
      field: 'input.turnoutId',
      remedy: expect.stringContaining('Correct the last one') as string,
    });
    const right = round({ correctsId: first.id, reason: 'seen since', remark: 'the garboard weeps' });
    const { lines } = await logs.write(onWatch, right);
    expect(lines).toHaveLength(500);
    expect(lines.filter(({ now }) => now.remark === 'the garboard weeps')).toHaveLength(1);
  });

  // The clocks go back on 7 November 2027 at 02:00: 15 U.S.C. 260a.
  it('knows the two hours of one name apart, in the night in which the clocks go back', async () => {
    const [{ id: turnoutId }] = await yard.at.database.write((manager) =>
      laySpecial(
        manager,
        yard.organisationId,
        { kind: 'watch', note: null, now: 0 },
        layWatches({ on: '2027-11-07', startTime: '00:00', all: 240, each: 240 }, 'America/Los_Angeles'),
      ),
    );
    const standsAt = (text: string) =>
      yard.at.database.write((manager) => yard.at.clock.set(manager, yard.organisationId, Date.parse(text)));
    const readAts = async (read: PumpDraft['read']) =>
      (await logs.write(coordinator, round({ turnoutId, read }))).lines.map(({ now }) =>
        new Date(now.readAt).toISOString(),
      );
    const typed = (time: string) => ({ on: '2027-11-07', time });
    await standsAt('2027-11-07T01:40:00-07:00');
    expect(await readAts(typed('01:30'))).toEqual(['2027-11-07T08:30:00.000Z']);
    await standsAt('2027-11-07T01:40:20-08:00');
    expect((await readAts(typed('01:35')))[0]).toBe('2027-11-07T09:35:00.000Z');
    expect((await readAts(Date.parse('2027-11-07T01:40:20-08:00')))[0]).toBe('2027-11-07T09:40:00.000Z');
    // Pressed without a line, and sent an hour later.
    expect(await readAts(Date.parse('2027-11-07T01:38:00-07:00'))).toContain('2027-11-07T08:38:00.000Z');
  });

  it('says what is wrong with when somebody looked: not said, or said twice', async () => {
    const resolver = new PumpLogResolver(logs);
    const asked = (rest: object) =>
      refusalOf(resolver.writePumpEntry(onWatch, { turnoutId: watchIds[0], doneBy: 'hand-1', ...rest }));
    const field = 'input.read';
    expect(await asked({})).toMatchObject({ field, message: 'When somebody looked is not said.' });
    const twice = { ...at('11:00'), readAt: Date.parse('2027-03-06T11:00:00-08:00') };
    expect(await asked(twice)).toMatchObject({ field, message: 'When somebody looked is said twice.' });
  });

  it('is corrected with a reason, once from one reading, and what was written stays', async () => {
    const [first] = (await logs.write(onWatch, round({ depthMillimetres: 510 }))).lines;
    const correctsId = first.now.id;
    expect((await refusalOf(logs.write(onWatch, round({ correctsId })))).field).toBe('input.reason');
    const right = round({ correctsId, reason: 'misread', depthMillimetres: 51 });
    const { lines } = await logs.write(onWatch, right);
    expect(lines.map(({ now, before }) => [now, ...before].map((one) => one.depthMillimetres))).toEqual([
      [51, 510],
    ]);
    expect((await refusalOf(logs.write(coordinator, right))).code).toBe('CHANGED_MEANWHILE');
    const out = round({ correctsId: lines[0].now.id, reason: 'another bilge', depthMillimetres: null });
    const struck = await logs.write(onWatch, out);
    expect(struck.lines[0].before.map((one) => one.depthMillimetres)).toEqual([51, 510]);
    expect(struck.lines[0].now).toMatchObject({ depthMillimetres: null, reason: 'another bilge' });
    await logs.write(onWatch, round({ depthMillimetres: 60 }));
    expect((await logs.of(onWatch, null))?.trends).toEqual([]);
  });

  it('warns of a rise over one watch and the next, says whom to tell, and never that she is safe', async () => {
    await yard.at.database.write(async (manager) => {
      const accountId = newId('account');
      await manager.insert(Account, {
        ...{ id: accountId, email: 'odalys@yard.example', name: 'Odalys Brenn', passwordHash: '' },
        ...{ hasOneTimePassword: false, openedAt: 0 },
      });
      const { organisationId } = yard;
      await manager.insert(Membership, {
        ...{ id: newId('membership'), organisationId, accountId, role: 'shipwright', volunteerId: null },
      });
    });
    await logs.write(onWatch, round());
    await clockAt('15:00');
    const later = await logs.write(
      onWatch,
      round({ ...at('15:00'), turnoutId: watchIds[1], depthMillimetres: 180 }),
    );
    expect(later.trends).toMatchObject([{ measure: 'depth', goes: 'rising', from: 100, perHour: 20 }]);
    expect(later.warnings).toEqual([
      expect.stringContaining('Tell Odalys Brenn, shipwright, and the yard, now'),
    ]);
    await clockAt('15:55');
    const falls = await logs.write(
      onWatch,
      round({ ...at('15:50'), turnoutId: watchIds[1], depthMillimetres: 90 }),
    );
    expect(falls).toMatchObject({ trends: [{ goes: 'falling' }], warnings: [] });
  });

  it('tells of a rise while she is watched and for some hours more; later it says what was seen then', async () => {
    await clockAt('17:50');
    for (const [time, depthMillimetres] of [
      ['16:00', 100],
      ['17:30', 160],
    ] as const)
      await logs.write(onWatch, round({ ...at(time), turnoutId: watchIds[1], depthMillimetres }));
    const warnings = async () => (await logs.of(onWatch, watchIds[1]))?.warnings ?? [];
    const order = expect.stringContaining('Tell the shipwright, and the yard, now') as string;
    expect(await warnings()).toEqual([order]);
    await clockAt('23:30');
    expect(await warnings()).toEqual([order]);
    await clockAt('23:31');
    const seen = await warnings();
    expect(seen).toEqual([
      expect.stringContaining('Up to the round at 17:30 on Saturday, March 6 more water'),
    ]);
    expect(seen.join()).not.toContain('Tell');
  });

  it('asks for a round where none was written for an hour while the watch goes on', async () => {
    await logs.write(onWatch, round());
    expect((await logs.of(onWatch, null))?.warnings).toEqual([]);
    await clockAt('12:01');
    expect((await logs.of(onWatch, null))?.warnings).toEqual([
      expect.stringContaining('Nothing is written down since 11:00'),
    ]);
    await clockAt('15:01');
    expect((await logs.of(onWatch, watchIds[0]))?.warnings).toEqual([]);
    expect((await logs.of(onWatch, watchIds[1]))?.warnings).toEqual([expect.stringContaining('since 14:00')]);
  });
});
