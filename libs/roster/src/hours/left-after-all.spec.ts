import { Audit, AuditEntry, type Caller } from '@ribband/access';
import { instantToLocal, Message, RealClock, scratchKinds, YardClock } from '@ribband/platform';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { TestYard } from '../roster.fixture.js';
import { usualRound } from '../safety/closing-round.entity.js';
import { ClosingRounds } from '../safety/closing-rounds.service.js';
import type { HourEntryEntity } from './hour-entry.entity.js';
import { hoursAt } from './hours.fixture.js';

const on = '2027-03-06';
const zone = 'America/Los_Angeles';

describe.each(scratchKinds())('What parents know of a leaving once hours are put right, on %s', (kind) => {
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
    turnoutId = (await yard.at.turnouts.add(coordinator, { on, ...times })).id;
    await hours.clockAt(yard, on, '09:00');
  });
  afterEach(() => yard.close());

  const letters = async () => {
    const rows = await yard.at.database.read.find(Message, { order: { id: 'ASC' } });
    return rows.filter(
      ({ recipientId, kind: what }) => recipientId.startsWith('guardian') && what === 'minor-came-and-left',
    );
  };
  const told = async () =>
    (await letters()).map(({ words }) => /(come|gone) at \d\d:\d\d/.exec(words)?.[0] ?? 'mistake');
  const leftAt = async () => {
    const row = await yard.at.database.read.findOneByOrFail(AttendanceEntity, {
      ...{ turnoutId, volunteerId: cass.volunteerId ?? '' },
    });
    return row.leftAt === null ? null : instantToLocal(row.leftAt, zone).time;
  };
  const clock = (time: string) => hours.clockAt(yard, on, time);
  const signOn = () => hours.signOns.on(cass, { volunteerId: null, taskId: null, from: null });
  const sheet = async (...lines: [from: string, to: string][]) => {
    const own = { volunteerId: cass.volunteerId ?? '', taskId: null, on, kindId: null, note: null };
    return hours.entries.enter(
      coordinator,
      lines.map(([from, to]) => ({ ...own, from, to })),
    );
  };
  const correct = (entry: HourEntryEntity, from: string, to: string, who = coordinator) =>
    hours.entries.correct(who, entry.id, { from, to, taskId: null, kindId: null }, 'misread');
  const takeOut = (entry: HourEntryEntity, who = coordinator) =>
    hours.entries.correct(who, entry.id, null, 'entered by mistake');
  const call = () =>
    yard.at.calling.confirm(
      coordinator,
      {
        ...{ turnoutId, version: 0, absent: [], visitors: [], seats: [], fallen: [] },
        present: [{ volunteerId: cass.volunteerId ?? '', how: 'ticked', arrivedAt: null }],
      },
      null,
    );
  const roll = async () => {
    const { database, bus, family } = yard.at;
    const real = new RealClock();
    const rounds = new ClosingRounds(
      database,
      new YardClock(database, real),
      new Audit(real),
      bus,
      hours.signOns,
      family,
    );
    const done = usualRound.map((words) => ({ words, isDone: true, note: null }));
    await rounds.close(coordinator, turnoutId, done, [cass.volunteerId ?? '']);
  };

  it('is the right time the same afternoon, before any roll', async () => {
    await clock('18:00');
    const [entry] = await sheet(['13:00', '15:15']);
    const right = await correct(entry, '13:00', '14:30');
    expect([await told(), await leftAt()]).toEqual([
      ['come at 13:00', 'gone at 15:15', 'gone at 14:30'],
      null,
    ]);
    await correct(right, '13:00', '14:30');
    expect(await told()).toHaveLength(3);
  });

  it('is the right time where the roll has another of its own', async () => {
    await clock('18:00');
    const [entry] = await sheet(['09:00', '12:30']);
    await roll();
    await correct(entry, '09:00', '12:45');
    expect([await told(), await leftAt()]).toEqual([
      ['come at 09:00', 'gone at 12:30', 'gone at 12:45'],
      '14:00',
    ]);
  });

  it('is no leaving while they are there again', async () => {
    const first = await signOn();
    await clock('11:00');
    await hours.signOns.off(cass, first.id, null);
    await clock('12:00');
    const again = await signOn();
    await clock('12:30');
    await correct(first, '09:00', '11:20');
    expect(await told()).toEqual(['come at 09:00', 'gone at 11:00', 'come at 12:00']);
    // They had not come again at all.
    await takeOut(again);
    expect((await letters()).at(-1)?.words).toBe(
      'cass was ticked as gone at 11:20. We wrote that cass had come again; that was a mistake.',
    );
  });

  it('is told as an earlier leaving where they have come to another turnout since', async () => {
    const first = await signOn();
    await clock('13:00');
    await hours.signOns.off(cass, first.id, null);
    await yard.at.turnouts.add(coordinator, { on, startTime: '18:00', endTime: '21:00' });
    await clock('18:00');
    await signOn();
    await correct(first, '09:00', '12:40');
    expect((await letters()).at(-1)).toMatchObject({
      subject: 'When cass left the yard',
      words: expect.stringContaining('gone at 12:40, and has come again since.') as string,
    });
  });

  it('goes by the hours that are left where some are taken out, and the record with it', async () => {
    await clock('18:00');
    await sheet(['09:00', '11:00'], ['11:30', '13:00']);
    await roll();
    const [late] = await sheet(['13:30', '15:15']);
    expect([(await told()).at(-1), await leftAt()]).toEqual(['gone at 15:15', '15:15']);
    await takeOut(late);
    expect([(await told()).at(-1), await leftAt()]).toEqual(['gone at 13:00', '13:00']);
  });

  it('goes back to what the roll saw where no hours are left of somebody who was called', async () => {
    await call();
    await clock('18:00');
    await roll();
    const [entry] = await sheet(['09:00', '15:15']);
    expect([(await told()).at(-1), await leftAt()]).toEqual(['gone at 15:15', '15:15']);
    await takeOut(entry);
    expect([(await told()).at(-1), await leftAt()]).toEqual(['gone at 14:00', '14:00']);
  });

  it('was a mistake where they take their hours out themselves, and the leaving is told when it comes', async () => {
    await clock('12:30');
    const [entry] = await sheet(['09:00', '12:00']);
    await takeOut(entry, cass);
    expect(await told()).toEqual(['come at 09:00', 'gone at 12:00', 'mistake']);
    expect((await letters()).at(-1)?.words).toContain('had left the yard. That was a mistake');
    await clock('14:05');
    await roll();
    expect((await told()).slice(3)).toEqual(['gone at 14:00']);
    // Entered rightly after all: that the roll told them so stands.
    await sheet(['09:00', '12:00']);
    expect(await told()).toHaveLength(4);
  });

  it('is told once more where the hours that were taken out are entered again', async () => {
    await clock('12:30');
    const [entry] = await sheet(['09:00', '12:00']);
    await takeOut(entry);
    await sheet(['09:00', '12:00']);
    expect((await told()).slice(1)).toEqual(['gone at 12:00', 'mistake', 'come at 09:00', 'gone at 12:00']);
    expect((await letters()).at(-1)?.words).toBe('cass was ticked as gone at 12:00.');
  });

  it('takes their coming out as well where paper alone said so; who signs on after it has come', async () => {
    const isThere = () => yard.at.database.read.existsBy(AttendanceEntity, { turnoutId });
    await clock('12:30');
    const [entry] = await sheet(['09:00', '12:00']);
    await takeOut(entry, cass);
    // Their own word takes nobody off the roll.
    expect(await isThere()).toBe(true);
    const [again] = await sheet(['09:00', '11:00']);
    await takeOut(again);
    expect(await isThere()).toBe(false);
    expect((await letters()).at(-1)?.words).toContain('had come to the yard and left it. That was a mistake');
    const before = (await told()).length;
    await clock('13:00');
    await signOn();
    await clock('14:05');
    await roll();
    expect((await told()).slice(before)).toEqual(['come at 13:00', 'gone at 14:00']);
  });

  it('keeps who was seen after the paper: called or signed on, they are on the roll whatever it said', async () => {
    await clock('12:30');
    const [entry] = await sheet(['09:00', '12:00']);
    await call();
    await takeOut(entry);
    expect(await leftAt()).toBeNull();
  });

  it('does not rest on their own word against the roll; whoever leads moves it, and the audit says from when to when', async () => {
    const entry = await signOn();
    await clock('14:05');
    await roll();
    const own = await correct(entry, '09:00', '12:00', cass);
    expect([await told(), await leftAt()]).toEqual([['come at 09:00', 'gone at 14:00'], '14:00']);
    const back = await correct(own, '09:00', '14:00');
    await correct(back, '09:00', '12:15');
    expect([(await told()).at(-1), await leftAt()]).toEqual(['gone at 12:15', '12:15']);
    const noted = await yard.at.database.read.find(AuditEntry, {
      where: { operation: 'correctHours' },
      order: { id: 'ASC' },
    });
    const at = (time: string) => expect.objectContaining({ time }) as object;
    expect(
      noted.map(({ facts }) =>
        ((facts as { leftAt?: { was: number; now: number }[] }).leftAt ?? []).map(({ was, now }) => [
          ...[instantToLocal(was, zone), instantToLocal(now, zone)],
        ]),
      ),
    ).toEqual([[], [], [[at('14:00'), at('12:15')]]]);
  });

  it('is told by a correction that ends open hours, and by a roll that ends those after a sheet', async () => {
    const entry = await signOn();
    await clock('11:00');
    await correct(entry, '09:00', '10:30', cass);
    expect(await told()).toEqual(['come at 09:00', 'gone at 10:30']);
    await sheet(['10:30', '10:45']);
    await clock('12:00');
    await signOn();
    await clock('14:05');
    await roll();
    expect((await told()).slice(2)).toEqual(['gone at 10:45', 'come at 12:00', 'gone at 14:00']);
  });
});
