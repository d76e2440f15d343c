import { type Refusal, RefusalError, scratchKinds } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { PlaceEntity, Places } from '@ribband/roster';
import { TestHouse } from '../../planning.fixture.js';
import { smallYard } from '../../yard/small-yard.fixture.js';
import { YardBook } from '../../yard/yard-book.service.js';
import type { PlaceProposal } from '../week-book.js';
import type { Week } from '../week-told.js';
import { Weeks } from '../weeks.service.js';
import type { PlacedHand } from './placed.js';

const saturday = '2027-03-06';

async function refusalOf(work: Promise<unknown>): Promise<Refusal> {
  const refused = await work.catch((error: unknown) => error);
  if (refused instanceof RefusalError) return refused.refusal;
  throw new Error('it was not refused');
}

const placesOf = (week: Week): PlaceProposal[] =>
  week.turnouts.flatMap(({ work }) => work.flatMap(({ places }) => places));

const placedIn = (week: Week): PlacedHand[] =>
  placesOf(week).flatMap(({ key, volunteerId, isFixed }) =>
    key !== null && volunteerId !== null ? [{ key, volunteerId, fixed: isFixed }] : [],
  );

describe.each(scratchKinds())('putting a week together on %s', (kind) => {
  let house: TestHouse;
  let weeks: Weeks;
  let week: Week;
  let planId: string;
  beforeAll(async () => {
    house = await TestHouse.open(kind);
    weeks = house.app.get(Weeks);
    await house.app
      .get(YardBook)
      .import(house.caller('director'), { ...smallYard(), places: [], tallies: [] }, false);
    await house.settled(100_000);
  }, 120_000);
  beforeEach(async () => {
    await house.database.write((manager) => manager.query('DELETE FROM week_draft'));
    week = await weeks.propose(coordinator(), saturday);
    planId = week.told?.entity.id ?? '';
  });
  afterAll(() => house.close());

  const coordinator = () => house.caller('coordinator');
  const at = (key: string) => placesOf(week).find((place) => place.key === key);
  const tryOut = (change: { key: string; volunteerId: string | null } | null, places = placedIn(week)) =>
    weeks.tryOut(coordinator(), saturday, planId, places, change);
  /** Somebody's seat that asks for a skill. */
  const skilled = () => {
    const place = placesOf(week).find((one) => one.skillId !== null && one.volunteerId !== null);
    if (!place?.key || !place.volunteerId) throw new Error('a skilled seat is held');
    return { key: place.key, volunteerId: place.volunteerId };
  };

  it('nobody is in two places at once, and everybody on a place has a reason', () => {
    const held = placesOf(week).filter((place) => place.volunteerId !== null);
    expect(held.length).toBeGreaterThan(3);
    for (const one of held) {
      expect(one.why).toMatch(/\.$/);
      const others = held.filter((other) => other !== one && other.volunteerId === one.volunteerId);
      for (const other of others)
        expect(other.startsAt >= one.endsAt || one.startsAt >= other.endsAt).toBe(true);
    }
  });

  it('a change says at once what it breaks and which odds it moves, and keeps nothing', async () => {
    const seat = skilled();
    const { week: tried, breaks, odds } = await tryOut({ key: seat.key, volunteerId: null });
    expect(placesOf(tried).find((place) => place.key === seat.key)?.volunteerId).toBeNull();
    expect(breaks.join(' ')).toMatch(/is left without .+ for /);
    expect(odds.length).toBeGreaterThan(0);
    // Who was taken off does not step in at once for themselves: no piece of work has better odds without them.
    const tenths = (words: string | null) => {
      if (words === null || words.startsWith('Less')) return 0;
      return words.startsWith('Better') ? 10 : Number(/^\d+/.exec(words)?.[0] ?? 0);
    };
    const own = odds.filter(({ taskId }) => taskId === seat.key.split(' ')[1]);
    expect(own.length).toBeGreaterThan(0);
    for (const { before, after } of own) expect(tenths(after)).toBeLessThanOrEqual(tenths(before));
    expect(tried.turnouts.flatMap(({ swingIds }) => swingIds)).not.toContain(seat.volunteerId);
    const again = await weeks.propose(coordinator(), saturday);
    expect(placedIn(again)).toEqual(placedIn(week));
  });

  it('whoever may not do it is put there all the same, with the gate that will turn them away', async () => {
    const seat = skilled();
    const levels = week.told?.problem.people;
    const skill = week.told?.problem.skills.findIndex(({ id }) => id === at(seat.key)?.skillId) ?? -1;
    const unable = levels?.find((one) => one.levels[skill] === 0 && week.crewIds.includes(one.id));
    const { breaks, week: tried } = await tryOut({ key: seat.key, volunteerId: unable?.id ?? '' });
    expect(breaks[0]).toMatch(new RegExp(`^${unable?.name ?? ''} on “`));
    expect(placesOf(tried).find((place) => place.key === seat.key)).toMatchObject({
      volunteerId: unable?.id,
      isFixed: true,
    });
  });

  it('another roster keeps who is marked and seats the others anew', async () => {
    const hand = placesOf(week).find((place) => place.skillId === null && place.volunteerId !== null);
    const other = placedIn(week).find(
      (one) => one.volunteerId !== hand?.volunteerId && at(one.key)?.skillId === null,
    );
    const fixed = [{ key: hand?.key ?? '', volunteerId: other?.volunteerId ?? '', fixed: true }];
    const again = await weeks.propose(coordinator(), saturday, fixed);
    expect(placesOf(again).find((place) => place.key === hand?.key)).toMatchObject({
      volunteerId: other?.volunteerId,
      isFixed: true,
    });
    expect(placedIn(again).length).toBeGreaterThanOrEqual(placedIn(week).length - 1);
    expect(placedIn(await weeks.propose(coordinator(), saturday, []))).toEqual(placedIn(week));
  });

  it('a marked place of an older plan is found by its work, what it asks for and its time, whatever its number', async () => {
    const seat = skilled();
    const changed = (change: (parts: string[]) => void) => {
      const parts = seat.key.split(' ');
      change(parts);
      return [{ ...seat, key: parts.join(' '), fixed: true }];
    };
    const moved = changed((parts) => {
      parts[2] = '7';
      parts[5] = String(Number(parts[5]) - 600_000);
    });
    const again = await weeks.propose(coordinator(), saturday, moved);
    expect(placesOf(again).find(({ key }) => key === seat.key)).toMatchObject({
      volunteerId: seat.volunteerId,
      isFixed: true,
    });
    expect(again.notices).toEqual([]);
    // The same number, and a level that nobody is asked for any more.
    const other = await weeks.propose(
      coordinator(),
      saturday,
      changed((parts) => (parts[4] = '4')),
    );
    expect(placesOf(other).some(({ isFixed }) => isFixed)).toBe(false);
    expect(other.notices.join()).toMatch(/one place that was kept is not to be filled any more\.$/);
  });

  it('a draft goes without the places of work that is left out meanwhile', async () => {
    const taskId = (await house.database.read.findOneByOrFail(Task, { id: skilled().key.split(' ')[1] })).id;
    const drop = (at: number | null) =>
      house.database.write((manager) => manager.update(Task, { id: taskId }, { droppedAt: at }));
    const kept = placedIn(week);
    await weeks.keepDraft(coordinator(), saturday, planId, kept);
    await drop(Date.now());
    const then = await weeks.propose(coordinator(), saturday);
    await drop(null);
    expect(placedIn(then)).toEqual(kept.filter(({ key }) => key.split(' ')[1] !== taskId));
    expect(then.notices.join()).toMatch(/not to be filled any more\.$/);
  });

  it('a draft is there for whoever opens the week, and gone when it is posted as it was put together', async () => {
    const seat = skilled();
    const without = placedIn(week).filter((one) => one.key !== seat.key);
    await weeks.keepDraft(coordinator(), saturday, planId, without);
    const kept = await weeks.propose(coordinator(), saturday);
    expect(kept.draft).toMatchObject({ keptBy: 'the coordinator', version: 1 });
    expect(placedIn(kept)).toEqual(without);
    await weeks.post(coordinator(), saturday, planId, without);
    const posted = await house.database.read.find(PlaceEntity);
    expect(posted.filter((place) => place.volunteerId !== null)).toHaveLength(
      without.length + placesOf(week).filter((place) => place.besideId !== null).length,
    );
    const after = await weeks.propose(coordinator(), saturday);
    expect([after.draft, after.isPosted, after.changes]).toEqual([null, true, []]);
  });

  it('what changes after posting is told with when and by whom', async () => {
    await weeks.post(coordinator(), saturday, planId);
    const [mine] = await house.database.read.find(PlaceEntity, { order: { id: 'ASC' } });
    await house.app.get(Places).leave(coordinator(), mine.id, null, mine.volunteerId);
    const { changes } = await weeks.propose(coordinator(), saturday);
    expect(changes[0]).toMatchObject({
      who: 'the coordinator',
      what: expect.stringMatching(/^.+ can’t come: “.+”, Sat 6 Mar\.$/) as unknown,
    });
    expect(Math.abs(Date.now() - changes[0].at)).toBeLessThan(60_000);
    await house.settled(100_000);
  });

  it('places and people that there are not, and somebody in two places at once, are refused with the field', async () => {
    const seat = skilled();
    const { volunteerId } = seat;
    const known = { ...seat, fixed: false };
    const wrong: [Promise<unknown>, string][] = [
      [tryOut({ key: 'nowhere', volunteerId }), 'put.key'],
      [tryOut({ key: seat.key, volunteerId: 'nobody' }), 'put.volunteerId'],
      [tryOut(null, [{ ...known, key: 'nowhere' }]), 'places.0.key'],
      [tryOut(null, [{ ...known, volunteerId: 'nobody' }]), 'places.0.volunteerId'],
      [tryOut(null, [known, known]), 'places.1.key'],
    ];
    for (const [work, field] of wrong)
      expect(await refusalOf(work)).toMatchObject({ code: 'BAD_INPUT', field });
    const turnout = week.turnouts.find(({ work }) =>
      work.some(({ places }) => places.some(({ key }) => key === seat.key)),
    );
    const sameTime = turnout?.work
      .flatMap(({ places }) => places)
      .find(
        (place) =>
          place.key !== null &&
          place.key !== seat.key &&
          place.startsAt < (at(seat.key)?.endsAt ?? 0) &&
          (at(seat.key)?.startsAt ?? 0) < place.endsAt,
      );
    const twice = [known, { ...known, key: sameTime?.key ?? '' }];
    expect((await refusalOf(tryOut(null, twice))).message).toMatch(/is in two places at once\.$/);
    const outdated = weeks.tryOut(coordinator(), saturday, 'plan_other', [], null);
    expect(await refusalOf(outdated)).toMatchObject({ code: 'PLAN_OUTDATED', field: 'planId' });
    const volunteer = house.caller('volunteer');
    expect((await refusalOf(weeks.tryOut(volunteer, saturday, planId, [], null))).code).toBe('NOT_PERMITTED');
    expect((await refusalOf(weeks.keepDraft(volunteer, saturday, planId, []))).code).toBe('NOT_PERMITTED');
  });
});
