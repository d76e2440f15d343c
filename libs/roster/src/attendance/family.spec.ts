import type { Caller } from '@ribband/access';
import { Message, scratchKinds } from '@ribband/platform';
import { Audit } from '@ribband/access';
import { instantToLocal, RealClock, YardClock } from '@ribband/platform';
import { AttendanceEntity } from './attendance.entity.js';
import { hoursAt } from '../hours/hours.fixture.js';
import { TestYard } from '../roster.fixture.js';
import { usualRound } from '../safety/closing-round.entity.js';
import { ClosingRounds } from '../safety/closing-rounds.service.js';

describe.each(scratchKinds())('parents of somebody under 18, on %s', (kind) => {
  let yard: TestYard;
  let hours: ReturnType<typeof hoursAt>;
  let coordinator: Caller;
  let cass: Caller;
  let turnoutId: string;

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    hours = hoursAt(yard.at);
    coordinator = yard.caller('coordinator');
    cass = await yard.hand('cass');
    const times = { startTime: '09:00', endTime: '14:00' };
    turnoutId = (await yard.at.turnouts.add(coordinator, { on: '2027-03-06', ...times })).id;
    await hours.clockAt(yard, '2027-03-06', '09:00');
  });
  afterEach(() => yard.close());

  const told = async () => {
    const rows = await yard.at.database.read.find(Message, { order: { id: 'ASC' } });
    return rows
      .filter(
        ({ recipientId, kind: what }) => recipientId.startsWith('guardian') && what === 'minor-came-and-left',
      )
      .map(({ words }) => /(come|gone) at \d\d:\d\d/.exec(words)?.[0]);
  };
  const call = (refs: Caller[], version = 0) =>
    yard.at.calling.confirm(
      coordinator,
      {
        turnoutId,
        version,
        present: refs.map(({ volunteerId }) => ({
          volunteerId: volunteerId ?? '',
          how: 'badge',
          arrivedAt: null,
        })),
        absent: [],
        visitors: [],
        seats: [],
        fallen: [],
      },
      null,
    );
  const close = async (refs: Caller[]) => {
    const { database, bus, family } = yard.at;
    const real = new RealClock();
    const clock = new YardClock(database, real);
    const rounds = new ClosingRounds(database, clock, new Audit(real), bus, hours.signOns, family);
    const done = usualRound.map((words) => ({ words, isDone: true, note: null }));
    await rounds.close(
      coordinator,
      turnoutId,
      done,
      refs.map(({ volunteerId }) => volunteerId ?? ''),
    );
  };

  it('learn each time that they sign on and off, and nothing of adults', async () => {
    const on = (who: Caller) => hours.signOns.on(who, { volunteerId: null, taskId: null, from: null });
    const first = await on(cass);
    await on(await yard.hand('hand-1'));
    await hours.clockAt(yard, '2027-03-06', '11:00');
    await hours.signOns.off(cass, first.id, null);
    await hours.clockAt(yard, '2027-03-06', '12:00');
    await on(cass);
    await hours.clockAt(yard, '2027-03-06', '14:05');
    await close([cass, await yard.hand('hand-1')]);
    expect(await told()).toEqual(['come at 09:00', 'gone at 11:00', 'come at 12:00', 'gone at 14:00']);
  });

  it('learn it once from the morning call, however often it is called, and from the roll at the end', async () => {
    const adult = await yard.hand('hand-1');
    await call([cass, adult]);
    await call([cass, adult], 1);
    const entry = await hours.signOns.on(cass, { volunteerId: null, taskId: null, from: null });
    await hours.clockAt(yard, '2027-03-06', '13:00');
    expect(await told()).toEqual(['come at 09:00']);
    await hours.signOns.off(cass, entry.id, null);
    await hours.clockAt(yard, '2027-03-06', '14:05');
    await close([cass, adult]);
    // The roll finds her signed off: it was told then.
    expect(await told()).toEqual(['come at 09:00', 'gone at 13:00']);
  });

  it('learn that they left from a sign-off that is entered after midnight', async () => {
    const adult = await yard.hand('hand-1');
    const entry = await hours.signOns.on(cass, { volunteerId: null, taskId: null, from: null });
    await call([cass, adult]);
    await hours.clockAt(yard, '2027-03-06', '11:00');
    await hours.signOns.off(cass, entry.id, null);
    await hours.clockAt(yard, '2027-03-06', '12:00');
    const again = await hours.signOns.on(cass, { volunteerId: null, taskId: null, from: null });
    await hours.clockAt(yard, '2027-03-07', '00:20');
    await hours.signOns.off(cass, again.id, '13:30');
    expect((await told()).at(-1)).toBe('gone at 13:30');
  });

  it('learn it from a roll that is made after midnight', async () => {
    const adult = await yard.hand('hand-1');
    await call([cass, adult]);
    await hours.clockAt(yard, '2027-03-07', '00:20');
    await close([cass, adult]);
    expect(await told()).toEqual(['come at 09:00', 'gone at 14:00']);
    const rows = await yard.at.database.read.findBy(Message, { kind: 'minor-came-and-left' });
    expect(rows.some(({ words }) => words.endsWith('gone at 14:00 on Saturday, March 6.'))).toBe(true);
  });

  it('learn from a sheet of paper with several lines when the first began and the last ended', async () => {
    await hours.clockAt(yard, '2027-03-06', '18:00');
    const rest = {
      volunteerId: cass.volunteerId ?? '',
      taskId: null,
      on: '2027-03-06',
      kindId: null,
      note: null,
    };
    await hours.entries.enter(coordinator, [
      { ...rest, from: '10:30', to: '12:00' },
      { ...rest, from: '12:30', to: '14:00' },
      { ...rest, from: '09:00', to: '10:30' },
    ]);
    await close([cass]);
    expect(await told()).toEqual(['come at 09:00', 'gone at 14:00']);
  });

  it('learn of the right time where a later sheet, or a correction, says that they left at another', async () => {
    await hours.clockAt(yard, '2027-03-06', '18:00');
    const volunteerId = cass.volunteerId ?? '';
    const line = { volunteerId, taskId: null, on: '2027-03-06', kindId: null, note: null };
    const leftAt = async () => {
      const [row] = await yard.at.database.read.findBy(AttendanceEntity, { turnoutId, volunteerId });
      return row.leftAt === null ? null : instantToLocal(row.leftAt, 'America/Los_Angeles').time;
    };
    await hours.entries.enter(coordinator, [{ ...line, from: '09:00', to: '11:00' }]);
    expect([await told(), await leftAt()]).toEqual([['come at 09:00', 'gone at 11:00'], null]);
    const [second] = await hours.entries.enter(coordinator, [{ ...line, from: '11:00', to: '12:30' }]);
    expect((await told()).slice(2)).toEqual(['gone at 12:30']);
    await close([cass]);
    // The roll has its own time for who was never signed off; the sheet after it knows better.
    const atRoll = await leftAt();
    expect(atRoll).toBe('14:00');
    const [third] = await hours.entries.enter(coordinator, [{ ...line, from: '13:00', to: '15:15' }]);
    expect([(await told()).at(-1), await leftAt()]).toEqual(['gone at 15:15', '15:15']);
    await hours.entries.correct(
      coordinator,
      third.id,
      { from: '13:00', to: '14:30', taskId: null, kindId: null },
      'misread',
    );
    expect([(await told()).at(-1), await leftAt()]).toEqual(['gone at 14:30', '14:30']);
    // What is not their last hours says nothing of when they left.
    const before = await told();
    await hours.entries.correct(
      coordinator,
      second.id,
      { from: '11:00', to: '12:00', taskId: null, kindId: null },
      'misread',
    );
    expect([await told(), await leftAt()]).toEqual([before, '14:30']);
  });

  it('are not told of an earlier leaving by a sheet that ends before the roll saw them go', async () => {
    await call([cass]);
    await hours.clockAt(yard, '2027-03-06', '14:05');
    await close([cass]);
    await hours.clockAt(yard, '2027-03-06', '18:00');
    const line = { volunteerId: cass.volunteerId ?? '', taskId: null, on: '2027-03-06', kindId: null };
    await hours.entries.enter(coordinator, [{ ...line, note: null, from: '09:00', to: '12:00' }]);
    expect(await told()).toEqual(['come at 09:00', 'gone at 14:00']);
    // She is not there again: the roll has accounted for her.
    const rows = await yard.at.database.read.findBy(AttendanceEntity, { turnoutId });
    expect(rows.every(({ leftAt }) => leftAt !== null)).toBe(true);
  });

  it('are not written to about a day gone by, entered from paper', async () => {
    await hours.clockAt(yard, '2027-03-08', '10:00');
    const line = { volunteerId: cass.volunteerId ?? '', on: '2027-03-06', from: '09:00', to: '13:00' };
    await hours.entries.enter(coordinator, [{ ...line, taskId: null, kindId: null, note: null }]);
    expect(await told()).toEqual([]);
  });
});
