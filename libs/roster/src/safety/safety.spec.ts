import { Audit, type Caller } from '@ribband/access';
import { CardEntity, CardKind, YardDay } from '@ribband/crew';
import {
  type DatabaseKind,
  localToInstant,
  type Messages,
  type News,
  newId,
  RealClock,
  RefusalError,
  scratchKinds,
  YardClock,
} from '@ribband/platform';
import { haulOutInForce, Task } from '@ribband/repair';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { Deeds } from '../deeds/deeds.service.js';
import { hoursAt } from '../hours/hours.fixture.js';
import { FireWatches, mayWrite, type WatchDraft } from '../fire-watch/fire-watches.service.js';
import { type Fire, sayWatch, staysUntil } from '../fire-watch/fires.js';
import { TestYard } from '../roster.fixture.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { ClosingRounds } from './closing-rounds.service.js';
import { usualRound } from './closing-round.entity.js';
import { Incidents, mayReadWho } from './incidents.service.js';

const refusalOf = async (asked: Promise<unknown>) => {
  const error: unknown = await asked.then(
    () => null,
    (thrown: unknown) => thrown,
  );
  if (!(error instanceof RefusalError)) throw new Error(`not refused: ${String(error)}`);
  return error.refusal;
};

describe.each(scratchKinds())('Closing up and what happened, on %s', (kind: DatabaseKind) => {
  let yard: TestYard;
  let hours: ReturnType<typeof hoursAt>;
  let incidents: Incidents;
  let rounds: ClosingRounds;
  let watches: FireWatches;
  let coordinator: Caller;
  let hand: Caller;
  let turnoutId: string;
  /** What was told, for the outbox has tests of its own. */
  const told: News[] = [];
  const messages: Pick<Messages, 'post'> = {
    post: (_manager, news) => {
      told.push(news);
      return Promise.resolve([...news.to]);
    },
  };

  beforeAll(async () => {
    yard = await TestYard.open(kind);
    hours = hoursAt(yard.at);
    const { database, bus } = yard.at;
    const real = new RealClock();
    const clock = new YardClock(database, real);
    const day = new YardDay(clock, database);
    day.connect(async (manager, id) => (await haulOutInForce(manager, id))?.timeZone ?? null);
    incidents = new Incidents(database, clock, day, new Audit(real), messages as Messages);
    rounds = new ClosingRounds(database, clock, new Audit(real), bus, hours.signOns, yard.at.family);
    watches = new FireWatches(database, clock, new Audit(real), bus, new Deeds(database, real));
    coordinator = yard.caller('coordinator');
    hand = await yard.hand('hand-1');
    await hours.clockAt(yard, '2027-03-06', '09:00');
    const turnout = await yard.at.turnouts.add(coordinator, {
      on: '2027-03-06',
      startTime: '09:00',
      endTime: '14:00',
    });
    turnoutId = turnout.id;
  });
  afterAll(() => yard.close());

  const allDone = usualRound.map((words) => ({ words, isDone: true, note: null }));

  it('ends a turnout with everybody accounted for, and signs off who forgot', async () => {
    await hours.signOns.on(hand, { volunteerId: null, taskId: null, from: null });
    await hours.clockAt(yard, '2027-03-06', '14:10');
    const [todo] = await rounds.toDo(hand);
    expect(todo.there.map((one) => one.name)).toEqual(['hand-1']);
    expect((await refusalOf(rounds.close(coordinator, turnoutId, allDone, []))).message).toContain('hand-1');
    const skipped = allDone.map((item, index) => (index === 0 ? { ...item, isDone: false } : item));
    const id = hand.volunteerId ?? '';
    expect((await refusalOf(rounds.close(coordinator, turnoutId, skipped, [id]))).field).toBe('items');
    const stranger = await yard.hand('hand-2');
    expect(await refusalOf(rounds.close(stranger, turnoutId, allDone, [id]))).toMatchObject({
      code: 'NOT_PERMITTED',
      field: 'turnoutId',
    });
    expect(await refusalOf(rounds.close(hand, turnoutId, allDone, [id, 'volunteer_zz']))).toMatchObject({
      code: 'NOT_FOUND',
      field: 'accountedIds',
    });
    await rounds.close(hand, turnoutId, allDone, [id]);
    expect(await rounds.toDo(coordinator)).toEqual([]);
    const [entry] = await hours.told.between(hand, id, '2027-03-06', '2027-03-06');
    expect(entry).toMatchObject({ minutes: 300, endedBy: 'the roll' });
    const [came] = await yard.at.database.read.findBy(AttendanceEntity, { turnoutId });
    expect(came.leftAt).not.toBeNull();
    expect((await refusalOf(rounds.close(coordinator, turnoutId, allDone, [id]))).code).toBe(
      'CHANGED_MEANWHILE',
    );
  });

  it('accounts for who kept a watch once it is over, and goes round nothing', async () => {
    const { database } = yard.at;
    const day = await database.read.findOneByOrFail(TurnoutEntity, { id: turnoutId });
    const [startsAt, endsAt] = ['20:00', '23:00'].map((time) =>
      localToInstant('2027-03-06', time, 'America/Los_Angeles'),
    );
    const hoursOf = { startTime: '20:00', endTime: '23:00', startsAt, endsAt };
    const watch = { ...day, ...hoursOf, id: newId('turnout'), kind: 'watch' } as const;
    await database.write((manager) => manager.insert(TurnoutEntity, watch));
    await hours.clockAt(yard, '2027-03-06', '20:00');
    expect(await rounds.toDo(coordinator)).toEqual([]);
    await hours.signOns.on(hand, { volunteerId: null, taskId: null, from: null });
    expect(await rounds.toDo(coordinator)).toEqual([]);
    await hours.clockAt(yard, '2027-03-06', '23:10');
    const id = hand.volunteerId ?? '';
    expect(await rounds.toDo(coordinator)).toMatchObject([
      { turnout: { id: watch.id }, items: [], there: [{ volunteerId: id }] },
    ]);
    expect((await refusalOf(rounds.close(coordinator, watch.id, [], []))).field).toBe('accountedIds');
    expect(await rounds.close(coordinator, watch.id, [], [id])).toMatchObject({
      items: [],
      accountedIds: [id],
    });
    expect(await rounds.toDo(coordinator)).toEqual([]);
  });

  it('goes by the organisation’s own list', async () => {
    expect((await refusalOf(rounds.setItems(hand, ['Stove out']))).code).toBe('NOT_PERMITTED');
    expect(await rounds.setItems(coordinator, ['Stove out'])).toEqual(['Stove out']);
    expect(await rounds.setItems(coordinator, [])).toEqual(usualRound);
  });

  it('keeps who was hurt between those who answer for people and who wrote it, out of messages too', async () => {
    const report = {
      kind: 'near-miss' as const,
      what: 'A plank slid off the horse',
      place: 'shed door',
      who: 'Cass',
      picture: null,
    };
    const row = await incidents.report(hand, report);
    expect(mayReadWho(hand, row)).toBe(true);
    expect(mayReadWho(yard.caller('director'), row)).toBe(true);
    expect(mayReadWho(yard.caller('shipwright'), row)).toBe(false);
    expect(JSON.stringify(told)).not.toContain('Cass');
    expect(told[0]).toMatchObject({ kind: 'incident', path: '/safety' });
    expect(await incidents.list(await yard.hand('hand-2'))).toEqual([]);
  });

  it('gives it to somebody with a day, and closes it with what was done', async () => {
    const [row] = await incidents.list(coordinator);
    const owner = await yard.hand('hand-3');
    const to = { ownerId: owner.volunteerId ?? '', followUp: 'put stops on the horses', dueOn: '2027-03-13' };
    const given = await incidents.assign(coordinator, row.id, row.version, to);
    expect(
      (await refusalOf(incidents.assign(coordinator, row.id, given.version, { ...to, dueOn: '2027-03-01' })))
        .field,
    ).toBe('dueOn');
    expect((await refusalOf(incidents.close(hand, row.id, given.version, 'done'))).code).toBe(
      'NOT_PERMITTED',
    );
    expect((await refusalOf(incidents.close(owner, row.id, row.version, 'done'))).code).toBe(
      'CHANGED_MEANWHILE',
    );
    const closed = await incidents.close(owner, row.id, given.version, 'stops are on all four');
    expect(closed).toMatchObject({ outcome: 'stops are on all four' });
  });

  it('takes a photograph only as a picture', async () => {
    const report = { kind: 'damage' as const, what: 'a', place: 'b', who: null, picture: 'AAAA' };
    expect((await refusalOf(incidents.report(hand, report))).field).toBe('picture');
  });

  describe('with hot work', () => {
    const on = '2027-03-13';
    const at = (time: string) => ({ on, time });
    let taskId: string;
    let watch: Caller;
    let cutter: Caller;
    let draft: WatchDraft;

    beforeAll(async () => {
      await hours.clockAt(yard, on, '09:00');
      const hoursOf = { startTime: '09:00', endTime: '14:00' };
      turnoutId = (await yard.at.turnouts.add(coordinator, { on, ...hoursOf })).id;
      taskId = await yard.addTask('Cut bolts', { hazards: ['hot-work'] });
      cutter = await yard.hand('hand-2');
      watch = await yard.hand('hand-3');
      const { organisationId } = yard;
      await yard.at.database.write(async (manager) => {
        const kindId = newId('cardkind');
        await manager.insert(CardKind, {
          id: kindId,
          organisationId,
          ref: 'watch',
          name: 'Sparks',
          purpose: 'hot-work-watch',
        });
        const card = { volunteerId: watch.volunteerId ?? '', kindId, issuer: 'the yard', expiresOn: on };
        await manager.insert(CardEntity, { id: newId('card'), organisationId, ...card });
      });
      for (const { volunteerId } of [cutter, watch]) await yard.addPlace({ turnoutId, taskId, volunteerId });
      draft = {
        ...{ turnoutId, taskId, version: 0, watchId: watch.volunteerId, notLit: null },
        ...{ lastSpark: null, lookBy: null, lookDue: null, looked: null, found: null, reason: null },
      };
    });

    it('names the watch: by itself with its card, or by the lead; whoever cuts writes nothing', async () => {
      const may = await Promise.all(
        [cutter, watch, coordinator].map(async (who) => {
          const [fire] = await watches.list(who, turnoutId);
          return mayWrite(who, fire);
        }),
      );
      expect(may).toEqual([false, true, true]);
      expect((await refusalOf(watches.write(cutter, draft))).code).toBe('NOT_PERMITTED');
      const other = { ...draft, watchId: cutter.volunteerId };
      expect(await refusalOf(watches.write(watch, other))).toMatchObject({ field: 'input.watchId' });
      expect((await refusalOf(watches.write(watch, { ...draft, watchId: null }))).field).toBe(
        'input.watchId',
      );
      const [named] = (await watches.write(watch, draft, 'one press')).written;
      expect((await watches.write(watch, draft, 'one press')).written).toHaveLength(1);
      expect(named).toMatchObject({ version: 1, lastSparkAt: null, writtenBy: 'volunteer' });
      expect(await refusalOf(watches.write(watch, draft))).toMatchObject({ code: 'CHANGED_MEANWHILE' });
    });

    it('tells whose card counts to who leads, and to everybody else of themselves only', async () => {
      const seen = async (caller: Caller) => {
        const [{ couldWatch, hasCard }] = await watches.list(caller, turnoutId);
        return { couldWatch, hasCard };
      };
      const own = { couldWatch: [watch.volunteerId], hasCard: true };
      expect(await seen(coordinator)).toEqual(own);
      expect(await seen(watch)).toEqual(own);
      expect(await seen(cutter)).toEqual({ couldWatch: [], hasCard: null });
      expect(await seen(hand)).toEqual({ couldWatch: [], hasCard: null });
    });

    // 29 CFR 1915.504(c)(2): at least 30 minutes; 60 is NFPA 51B, from memory.
    it('works out that the watch stays an hour after the last spark, and takes no time to come', async () => {
      await hours.clockAt(yard, on, '12:00');
      const sparks = { ...draft, version: 1, lastSpark: at('12:05') };
      expect(await refusalOf(watches.write(watch, sparks))).toMatchObject({ field: 'input.lastSpark' });
      const fire = await watches.write(watch, { ...sparks, lastSpark: at('11:50') });
      expect((staysUntil(fire) ?? 0) - (fire.written[0]?.lastSparkAt ?? 0)).toBe(60 * 60_000);
      expect(fire.hasCard).toBe(true);
      // Another cut moves it on without a reason; back it goes with one only.
      const later = await watches.write(watch, { ...draft, version: 2, lastSpark: at('11:58') });
      expect(later.written).toHaveLength(3);
      const back = { ...draft, version: 3, lastSpark: at('11:55') };
      expect(await refusalOf(watches.write(watch, back))).toMatchObject({ field: 'input.reason' });
      await watches.write(watch, { ...back, reason: 'the clock on the wall is 3 minutes fast' });
    });

    it('keeps the turnout open until the watch has stood its time, whoever asks', async () => {
      const aside = [{ taskId, reason: 'the yard’s own watchman is here all night' }];
      for (const who of [yard.caller('director'), coordinator])
        expect(await refusalOf(rounds.close(who, turnoutId, allDone, [], aside))).toMatchObject({
          code: 'NOT_PERMITTED',
        });
      expect(await refusalOf(rounds.close(coordinator, turnoutId, allDone, []))).toMatchObject({
        code: 'NOT_SEEN',
        message: 'The fire watch on “Cut bolts” stays another 55 minutes.',
      });
    });

    it('then until a later look is down or is said to come; the record alone is set aside by name', async () => {
      await hours.clockAt(yard, on, '14:00');
      expect((await refusalOf(rounds.close(coordinator, turnoutId, allDone, []))).message).toMatch(
        /Nobody has looked again/,
      );
      const aside = [{ taskId, reason: 'the yard’s own watchman is here all night' }];
      expect(await refusalOf(rounds.close(coordinator, turnoutId, allDone, [], aside))).toMatchObject({
        code: 'NOT_PERMITTED',
      });
      const spark = { ...draft, version: 4, lastSpark: at('11:55') };
      const early = { ...spark, lookBy: 'Dov', looked: at('12:30'), found: 'cold' };
      expect(await refusalOf(watches.write(watch, early))).toMatchObject({ field: 'input.looked' });
      await watches.write(watch, { ...spark, lookBy: 'Dov Sandringer', lookDue: at('16:00') });
      const round = await rounds.close(coordinator, turnoutId, allDone, []);
      expect(round.items.at(-1)).toEqual({
        words: 'Fire watch on “Cut bolts”',
        isDone: true,
        note: 'hand-3, until 12:55; later look to come: Dov Sandringer at 16:00 on 2027-03-13',
      });
      expect(await watches.list(coordinator, null)).toHaveLength(1);
      await hours.clockAt(yard, on, '16:10');
      const looked = { ...spark, version: 5, lookBy: 'Dov Sandringer', looked: at('16:00') };
      expect(await refusalOf(watches.write(watch, looked))).toMatchObject({ field: 'input.found' });
      await watches.write(watch, { ...looked, found: 'cold to the hand, no smell' });
      expect(await watches.list(coordinator, null)).toEqual([]);
      const [fire] = await watches.list(coordinator, turnoutId);
      const saidOf = (change: Partial<Fire['written'][number]>) =>
        sayWatch({ ...fire, written: [{ ...fire.written[0], ...change }] }, () => 'hand-3');
      expect(saidOf({})).toBe(
        'hand-3, until 12:55; later look at 16:00 by Dov Sandringer: cold to the hand, no smell',
      );
      const twoDays = 48 * 3_600_000;
      expect(saidOf({ lookedAt: (fire.written[0].lookedAt ?? 0) + twoDays })).toContain(
        // By then summer time has begun.
        'later look at 17:00 on 2027-03-15 by Dov Sandringer',
      );
      expect(fire.written.map(({ version }) => version)).toEqual([6, 5, 4, 3, 2, 1]);
    });

    it('takes one of two who write at once, and nothing of another organisation', async () => {
      const input = {
        ...draft,
        version: 6,
        watchId: null,
        notLit: 'the cutter was broken',
        reason: 'wrong day',
      };
      const both = await Promise.allSettled([
        watches.write(coordinator, input),
        watches.write(coordinator, input),
      ]);
      const lost = both.flatMap((one): unknown[] => (one.status === 'rejected' ? [one.reason] : []));
      expect(lost).toHaveLength(1);
      expect(lost[0]).toBeInstanceOf(RefusalError);
      expect((lost[0] as RefusalError).refusal.code).toBe('CHANGED_MEANWHILE');
      const stranger = { ...coordinator, organisationId: newId('organisation') };
      expect(await refusalOf(watches.write(stranger, input))).toMatchObject({ code: 'NOT_FOUND' });
    });

    describe('at a turnout that is called off while it goes on', () => {
      const gale = '2027-03-20';
      let ids: { turnoutId: string; taskId: string };

      beforeAll(async () => {
        await hours.clockAt(yard, gale, '09:00');
        const { id } = await yard.at.turnouts.add(coordinator, {
          ...{ on: gale, startTime: '09:00', endTime: '14:00' },
        });
        ids = { turnoutId: id, taskId: await yard.addTask('Cut straps', { hazards: ['hot-work'] }) };
        await yard.addPlace({ ...ids, volunteerId: cutter.volunteerId });
        await hours.signOns.on(cutter, { volunteerId: null, taskId: null, from: null });
      });

      it('is still to be written down, and the turnout to be closed', async () => {
        await hours.clockAt(yard, gale, '11:20');
        const turnout = await yard.at.database.read.findOneByOrFail(TurnoutEntity, { id: ids.turnoutId });
        await yard.at.turnouts.cancel(coordinator, turnout.id, turnout.version, 'A gale');
        const spark = { ...draft, ...ids, lastSpark: { on: gale, time: '11:00' } };
        expect((await watches.write(coordinator, spark)).written).toHaveLength(1);
        const waiting = await watches.list(coordinator, null);
        expect(waiting.map(({ task }) => task.title)).toEqual(['Cut straps']);
        const [todo] = await rounds.toDo(coordinator);
        expect([todo.turnout.id, todo.fires.length]).toEqual([turnout.id, 1]);
        const close = rounds.close(coordinator, turnout.id, allDone, [cutter.volunteerId ?? '']);
        expect((await refusalOf(close)).message).toBe(
          'The fire watch on “Cut straps” stays another 40 minutes.',
        );
      });

      it('counts work that was dropped meanwhile, and none of before or of a turnout that never began', async () => {
        const { database } = yard.at;
        const other = { ...ids, taskId: await yard.addTask('Cut rods', { hazards: ['hot-work'] }) };
        await yard.addPlace({ ...other, volunteerId: cutter.volunteerId });
        const { startsAt } = await database.read.findOneByOrFail(TurnoutEntity, { id: ids.turnoutId });
        const titles = async (droppedAt: number) => {
          await database.write((manager) => manager.update(Task, { id: other.taskId }, { droppedAt }));
          return (await watches.list(coordinator, ids.turnoutId)).map(({ task }) => task.title);
        };
        expect(await titles(startsAt + 3 * 3_600_000)).toEqual(['Cut straps', 'Cut rods']);
        expect(await titles(startsAt - 1)).toEqual(['Cut straps']);
        await database.write((manager) =>
          manager.update(TurnoutEntity, { id: ids.turnoutId }, { cancelledAt: startsAt }),
        );
        expect(await watches.list(coordinator, ids.turnoutId)).toEqual([]);
        expect(await refusalOf(watches.write(coordinator, { ...draft, ...ids }))).toMatchObject({
          ...{ code: 'NOT_FOUND', field: 'input.turnoutId' },
        });
      });
    });
  });
});
