import { readFileSync } from 'node:fs';
import { type Caller } from '@ribband/access';
import { Volunteer } from '@ribband/crew';
import { ComputeJob, localToInstant, Revisions, scratchKinds, YardClock } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Calling, PlaceEntity, TurnoutEntity } from '@ribband/roster';
import { In, Not } from 'typeorm';
import { TestHouse } from '../planning.fixture.js';
import { Weeks } from '../week/weeks.service.js';
import { YardBook } from '../yard/yard-book.service.js';
import { MorningSheets } from './morning-sheets.service.js';
import { type Morning, Mornings } from './mornings.service.js';

const demo: unknown = JSON.parse(
  readFileSync(new URL('../../../../fixtures/demo-yard.json', import.meta.url), 'utf8'),
);
/** The first turnout with a full posted roster. */
const on = '2027-03-20';

describe.each(scratchKinds().slice(0, 1))('a morning at the demo yard on %s', (kind) => {
  let house: TestHouse;
  let coordinator: Caller;
  let turnout: TurnoutEntity;
  let expected: string[];
  /** Four of them who stay away: everybody else came. */
  let away: string[];

  beforeAll(async () => {
    house = await TestHouse.open(kind);
    coordinator = house.caller('coordinator');
    await house.app.get(YardBook).import(coordinator, demo, false);
    await house.database.write((manager) =>
      house.app
        .get(YardClock)
        .set(manager, house.organisationId, localToInstant(on, '08:30', 'America/Los_Angeles')),
    );
    await planned();
    await house.database.write(async (manager) => {
      await house.app.get(Revisions).requestPlan(manager, house.organisationId, 'the clock was moved');
    });
    await planned();
    const weeks = house.app.get(Weeks);
    const { told } = await weeks.propose(coordinator, on);
    await weeks.post(coordinator, on, told?.entity.id ?? '');
    turnout = await house.database.read.findOneByOrFail(TurnoutEntity, { heldOn: on });
    const places = await standing();
    expected = [...new Set(places.flatMap(({ volunteerId }) => volunteerId ?? []))].sort();
    // Who runs the yard is there.
    const staff = await house.database.read.find(Volunteer, { where: { kind: Not('volunteer') } });
    away = expected.filter((id) => !staff.some((one) => one.id === id)).slice(0, 4);
  }, 200_000);
  afterAll(() => house.close());

  /** Waits for the plan alone: forecasts and advice may take their time. */
  const planned = async (): Promise<void> => {
    const end = Date.now() + 90_000;
    for (;;) {
      const jobs = await house.database.read.findBy(ComputeJob, { name: 'plan' });
      if (jobs.every(({ state }) => state === 'done' || state === 'failed')) return;
      if (Date.now() > end) throw new Error(`Still planning: ${JSON.stringify(jobs)}`);
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  };
  const standing = () =>
    house.database.read.find(PlaceEntity, { where: { turnoutId: turnout.id, state: Not(In(['left'])) } });
  const withoutFour = () => expected.filter((id) => !away.includes(id));
  const propose = (presentIds: readonly string[]): Promise<Morning> =>
    house.app.get(Mornings).propose(coordinator, turnout.id, presentIds);

  it('goes as posted when everybody comes', async () => {
    const morning = await propose(expected);
    expect(morning.seats.filter(({ how }) => how === 'walked in')).toEqual([]);
    const posted = await standing();
    const kept = posted.filter(
      (place) =>
        place.volunteerId !== null &&
        morning.seats.some((seat) => seat.taskId === place.taskId && seat.volunteerId === place.volunteerId),
    );
    const named = posted.filter((place) => place.volunteerId !== null);
    expect(kept.length).toBeGreaterThanOrEqual(named.length / 2);
  });

  it('with four missing is called in under two seconds: every gate holds and what falls away says why', async () => {
    await propose(expected);
    const came = withoutFour();
    const began = process.cpuUsage();
    const morning = await propose(came);
    const { user, system } = process.cpuUsage(began);
    // All threads of the process together: the forecast goes on beside it, which doubles what is counted here.
    expect((user + system) / 1e6).toBeLessThan(4);
    const there = new Set(came);
    for (const seat of morning.seats) {
      expect(there.has(seat.volunteerId)).toBe(true);
      const stops = morning.rules.book
        .findings(seat.volunteerId, seat, morning.seats)
        .filter(({ weight }) => weight === 'stop');
      expect(stops).toEqual([]);
    }
    const on = new Set(morning.seats.map(({ taskId }) => taskId));
    const posted = new Set((await standing()).map(({ taskId }) => taskId));
    const missing = [...posted].filter((taskId) => !on.has(taskId));
    expect(morning.fallen.map(({ taskId }) => taskId).sort()).toEqual(missing.sort());
    expect(morning.fallen.every(({ why }) => why.length > 5)).toBe(true);
    // Nobody is lost: each has a seat or is told to have none.
    const seated = new Set(morning.seats.map(({ volunteerId }) => volunteerId));
    expect([...seated, ...morning.idle.map(({ volunteerId }) => volunteerId)].sort()).toEqual(came);
  });

  it('is the same when it is asked again, and nothing of it is kept before it is confirmed', async () => {
    const before = await standing();
    const plain = ({ seats, fallen }: Morning) => ({ seats, fallen });
    const once = await propose(withoutFour());
    expect(plain(once)).toEqual(plain(await propose(withoutFour())));
    const twice = await propose([...withoutFour(), ...withoutFour()]);
    expect(twice.idle).toEqual(once.idle);
    expect(plain(twice)).toEqual(plain(once));
    expect(await standing()).toEqual(before);
  });

  it('stops work whose permit is missing and says so, and gives people other work; the permit opens it', async () => {
    const before = await propose(expected);
    const posted = new Set((await standing()).map(({ taskId }) => taskId));
    const id = before.seats.findLast(({ taskId }) => posted.has(taskId))?.taskId ?? '';
    const task = await house.database.read.findOneByOrFail(Task, { id });
    const withHazards = (hazards: Task['hazards']) =>
      house.database.write((manager) => manager.update(Task, { id }, { hazards }));
    await withHazards([...task.hazards, 'enclosed-space']);
    const morning = await propose(expected);
    const isFallen = ({ fallen }: Morning) => fallen.find(({ taskId }) => taskId === task.id)?.why;
    expect(isFallen(morning)).toMatch(/No permit for closed spaces/);
    expect(new Set(morning.seats.map(({ volunteerId }) => volunteerId)).size).toBeGreaterThan(4);
    expect(morning.seats.filter(({ taskId }) => taskId === id)).toEqual([]);
    const sheet = await house.app.get(MorningSheets).of(coordinator, turnout.id);
    expect(sheet.work.find((work) => work.task.id === task.id)?.closed).toMatch(
      /No permit for closed spaces/,
    );
    expect(sheet.work.filter(({ closed }) => closed === null).length).toBeGreaterThan(2);
    await house.database.write((manager) =>
      manager.save('Permit', {
        id: 'permit_air',
        organisationId: house.organisationId,
        kind: 'enclosed-space',
        taskId: null,
        by: 'Odalys Brenn',
        opensAt: turnout.startsAt,
        expiresAt: turnout.endsAt,
        oxygenPercent: 20.9,
        flammablePercent: 0,
        note: null,
        closedAt: null,
        closedBy: null,
      }),
    );
    expect(isFallen(await propose(expected)) ?? '').not.toMatch(/permit/);
    await house.database.write((manager) => manager.delete('Permit', { id: 'permit_air' }));
    await withHazards(task.hazards);
  }, 120_000);

  it('on the sheet that a phone keeps says of everybody on each task what the gates say', async () => {
    const sheet = await house.app.get(MorningSheets).of(coordinator, turnout.id);
    const crew = sheet.people.length;
    expect(sheet.work.length).toBeGreaterThan(2);
    expect(sheet.people.filter((person) => person.expected)).toHaveLength(expected.length);
    expect(sheet.work.every(({ verdicts }) => verdicts.length === crew)).toBe(true);
    const young = sheet.people.filter(({ isMinor }) => isMinor);
    expect(young.length).toBeGreaterThan(0);
    expect(new Set(sheet.people.map(({ code }) => code)).size).toBe(crew);
  });

  it('is confirmed as it was proposed, and the next plan knows who is on what', async () => {
    const came = withoutFour();
    const { seats, fallen, version } = await propose(came);
    const { call } = await house.app.get(Calling).confirm(
      coordinator,
      {
        turnoutId: turnout.id,
        version,
        present: came.map((volunteerId) => ({ volunteerId, how: 'ticked' as const, arrivedAt: null })),
        absent: away.map((volunteerId) => ({ volunteerId, saidSo: false })),
        visitors: [],
        seats: seats.map(({ taskId, skillId, level, volunteerId, startsAt, endsAt }) => {
          return { taskId, skillId, level, volunteerId, startsAt, endsAt };
        }),
        fallen,
      },
      null,
    );
    expect(call.turnedAway).toEqual([]);
    expect(await standing()).toHaveLength(seats.length);
    await planned();
  }, 90_000);
});
