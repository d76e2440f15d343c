import { Audit, type Caller } from '@ribband/access';
import { YardDay } from '@ribband/crew';
import {
  type DatabaseKind,
  type Messages,
  type News,
  RealClock,
  RefusalError,
  scratchKinds,
  YardClock,
} from '@ribband/platform';
import { haulOutInForce } from '@ribband/repair';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { hoursAt } from '../hours/hours.fixture.js';
import { TestYard } from '../roster.fixture.js';
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
    rounds = new ClosingRounds(database, clock, new Audit(real), bus, hours.signOns);
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
    await rounds.close(coordinator, turnoutId, allDone, [id]);
    expect(await rounds.toDo(coordinator)).toEqual([]);
    const [entry] = await hours.told.between(hand, id, '2027-03-06', '2027-03-06');
    expect(entry).toMatchObject({ minutes: 300, endedBy: 'the roll' });
    const [came] = await yard.at.database.read.findBy(AttendanceEntity, { turnoutId });
    expect(came.leftAt).not.toBeNull();
    expect((await refusalOf(rounds.close(coordinator, turnoutId, allDone, [id]))).code).toBe(
      'CHANGED_MEANWHILE',
    );
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
});
