import { RefusalError, scratchKinds } from '@ribband/platform';
import { Places, PlaceEntity, SwingHandEntity, SwingHands } from '@ribband/roster';
import { IsNull } from 'typeorm';
import { TestHouse } from '../planning.fixture.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import type { YardDocument } from '../yard/yard-document.js';
import { SecondVersions } from './second-versions.service.js';
import { Weeks } from './weeks.service.js';

/** Without the places and tallies of the document: the week is posted here. */
function bareYard(change: (yard: YardDocument) => void = () => undefined): YardDocument {
  const yard = { ...smallYard(), places: [], tallies: [] };
  change(yard);
  return yard;
}

describe.each(scratchKinds())('the coming week on %s', (kind) => {
  let house: TestHouse;
  let weeks: Weeks;
  beforeEach(async () => {
    house = await TestHouse.open(kind);
    weeks = house.app.get(Weeks);
  });
  afterEach(() => house.close());

  const put = async (yard: YardDocument) => {
    await house.app.get(YardBook).import(house.caller('director'), yard, false);
    await house.settled();
  };
  const coordinator = () => house.caller('coordinator');
  const places = () => house.database.read.find(PlaceEntity, { order: { id: 'ASC' } });

  it('is the week of the next turnout, with who is on what and why', async () => {
    await put(bareYard());
    const week = await weeks.propose(coordinator(), null);
    expect(week.weekOf).toBe('2027-03-01');
    expect(week.turnouts.map(({ turnout }) => turnout.heldOn)).toEqual(['2027-03-06', '2027-03-07']);
    const [saturday] = week.turnouts;
    const title = (id: string) => week.told?.problem.tasks[week.told.indexOf(id) ?? -1]?.name;
    const pulling = saturday.work.find(
      ({ taskId }) => title(taskId) === 'Strake 9A: pull plank nails to trays',
    );
    const why = pulling?.places.map(({ volunteerId, why: words }) => [
      week.names.get(volunteerId ?? '')?.name,
      words,
    ]);
    expect(why).toContainEqual([
      'Marguerite Alkin',
      expect.stringMatching(/^For nail puller, works alone: the only one that day\./),
    ]);
    expect(week.isPosted).toBe(false);
    expect(week.cautions.get(pulling?.taskId ?? '')).toContain('Clear the plank edge first.');
  });

  it('says what is missing: somebody for the saw on a day without the sawyer, a first-aid card', async () => {
    await put(bareYard());
    const { turnouts } = await weeks.propose(coordinator(), '2027-03-07');
    const sunday = turnouts.find(({ turnout }) => turnout.heldOn === '2027-03-07');
    expect(sunday?.work.flatMap(({ gaps }) => gaps)).toContain('needs 1 for sawyer');
    expect(sunday?.notices.join(' ')).toContain('No first-aid card that day');
    expect(sunday?.notices.join(' ')).toContain('Only Halcyon Reeves is expected');
  });

  it('is posted once, however often one presses, and keeps what people took and left', async () => {
    await put(bareYard());
    const { told } = await weeks.propose(coordinator(), null);
    const planId = told?.entity.id ?? '';
    await weeks.post(coordinator(), '2027-03-06', planId);
    const first = await places();
    expect(first.length).toBeGreaterThan(0);
    await weeks.post(coordinator(), '2027-03-06', planId);
    expect(await places()).toEqual(first);
    for (const day of ['1990-03-06', '2099-01-01'])
      await expect(weeks.post(coordinator(), day, planId)).rejects.toMatchObject({
        refusal: { code: 'BAD_INPUT', field: 'weekOf' },
      });
    expect((await weeks.propose(coordinator(), null)).isPosted).toBe(true);
    const marguerite = await house.volunteer('marguerite-alkin');
    const hers = first.find((place) => place.volunteerId === marguerite.volunteerId);
    await house.app.get(Places).take(marguerite, hers?.id ?? '');
    await house.settled();
    const { told: newer } = await weeks.propose(coordinator(), null);
    await weeks.post(coordinator(), '2027-03-06', newer?.entity.id ?? '');
    expect((await places()).find((place) => place.id === hers?.id)).toMatchObject({ state: 'taken' });
  });

  it('is not posted from a plan that records have overtaken', async () => {
    await put(bareYard());
    const { told } = await weeks.propose(coordinator(), null);
    const planId = told?.entity.id ?? '';
    await weeks.post(coordinator(), '2027-03-06', planId);
    const marguerite = await house.volunteer('marguerite-alkin');
    const hers = (await places()).find((place) => place.volunteerId === marguerite.volunteerId);
    await house.app.get(Places).take(marguerite, hers?.id ?? '');
    const refusal = await weeks.post(coordinator(), '2027-03-06', planId).catch((error: unknown) => error);
    expect(refusal instanceof RefusalError && refusal.refusal.code).toBe('PLAN_OUTDATED');
  });

  it('names nobody whom a gate does not let in: the place stands open and it says why', async () => {
    // The plan goes by the ages and cards on record; somebody changes the record of a card in between, unnoticed.
    await put(bareYard());
    const { told } = await weeks.propose(coordinator(), null);
    await house.database.write(async (manager) => {
      await manager.query(`UPDATE volunteer_skill SET level = 0`);
    });
    const { turnedAway } = await weeks.post(coordinator(), '2027-03-06', told?.entity.id ?? '');
    expect(turnedAway.join(' ')).toMatch(
      /Marguerite Alkin on “Strake 9A: pull plank nails to trays”: .*The place stands open\./,
    );
    const marguerite = await house.volunteer('marguerite-alkin');
    expect((await places()).some((place) => place.volunteerId === marguerite.volunteerId)).toBe(false);
  });

  it('says in words how likely each piece of work has its crew, and no figure about one person', async () => {
    await put(bareYard());
    const { turnouts } = await weeks.propose(coordinator(), null);
    const words = turnouts.flatMap(({ odds }) => [...odds.values()]);
    expect(words.length).toBeGreaterThan(0);
    for (const one of words)
      expect(one).toMatch(
        /^(No crew, whoever comes\.|Hangs on one person\.|(\d|Better than 9|Less than 1) in 10 that its crew comes\.)$/,
      );
    // The same people have the same odds once they are posted.
    const { told } = await weeks.propose(coordinator(), null);
    await weeks.post(coordinator(), '2027-03-06', told?.entity.id ?? '');
    const posted = await weeks.propose(coordinator(), null);
    const odds = (week: typeof turnouts) => week.map((one) => Object.fromEntries(one.odds));
    expect(odds(posted.turnouts)).toEqual(odds(turnouts));
  });

  it('once posted, has a second version without whoever would be missed most, which one press puts in force', async () => {
    await put(bareYard());
    const { told } = await weeks.propose(coordinator(), null);
    await weeks.post(coordinator(), '2027-03-06', told?.entity.id ?? '');
    const seconds = house.app.get(SecondVersions);
    const saturday = (await places())[0].turnoutId;
    const version = await seconds.of(coordinator(), saturday, null);
    if (!version) throw new Error('somebody would be missed');
    await expect(seconds.of(coordinator(), saturday, 'volunteer_zz')).rejects.toMatchObject({
      refusal: { code: 'NOT_FOUND', field: 'volunteerId' },
    });
    const { volunteerId } = version.without;
    expect(version.changes.length).toBeGreaterThan(0);
    expect(version.ring.length).toBeLessThanOrEqual(3);
    expect(version.ring.some(({ hand }) => hand.volunteerId === volunteerId)).toBe(false);
    const before = (await places()).filter((place) => place.turnoutId === saturday);
    await seconds.goWithout(coordinator(), saturday, volunteerId);
    const after = (await places()).filter((place) => place.turnoutId === saturday);
    const standing = after.filter((place) => place.state !== 'left');
    expect(standing.some((place) => place.volunteerId === volunteerId)).toBe(false);
    expect(standing).toHaveLength(before.length);
    const stayed = before.filter((place) => place.volunteerId !== volunteerId);
    expect(after).toEqual(expect.arrayContaining(stayed));
    const twice = await seconds
      .goWithout(coordinator(), saturday, volunteerId)
      .catch((error: unknown) => error);
    expect(twice instanceof RefusalError && twice.refusal.code).toBe('PLACE_NOT_OPEN');
  });

  it('tells who stands by when it is posted; a no shows as a change and is not asked again', async () => {
    // A second puller whom no work needs: she makes the crew of the nails likelier.
    await put(
      bareYard((yard) => {
        const [, puller] = yard.volunteers;
        yard.volunteers.push({ ...puller, ref: 'ines-calloway', name: 'Ines Calloway', showUpChance: 0.6 });
        Object.assign(puller, { showUpChance: 0.5 });
        Object.assign(yard.tasks[0] ?? {}, { crew: { min: 1, efficient: 1, max: 1 } });
      }),
    );
    const { told, turnouts } = await weeks.propose(coordinator(), null);
    const proposed = turnouts.flatMap(({ swingIds }) => swingIds);
    expect(proposed.length).toBeGreaterThan(0);
    await weeks.post(coordinator(), '2027-03-06', told?.entity.id ?? '');
    const rows = await house.database.read.findBy(SwingHandEntity, { leftAt: IsNull() });
    expect(rows.map(({ volunteerId }) => volunteerId).sort()).toEqual([...proposed].sort());
    const [row] = rows;
    await house.app.get(SwingHands).leave(house.caller('volunteer', row.volunteerId), row.id);
    const after = await weeks.propose(coordinator(), null);
    const saturday = after.turnouts.find(({ turnout }) => turnout.id === row.turnoutId);
    expect(saturday?.swingIds).not.toContain(row.volunteerId);
    expect(after.changes.map(({ what }) => what)).toContainEqual(
      expect.stringMatching(/can’t stand by on Sat 6 Mar\.$/),
    );
    await weeks.post(coordinator(), '2027-03-06', told?.entity.id ?? '');
    expect(await house.database.read.findBy(SwingHandEntity, { volunteerId: row.volunteerId })).toMatchObject(
      [{ id: row.id }],
    );
  });

  it('is for those who run the yard', async () => {
    const refusal = await weeks.propose(house.caller('volunteer'), null).catch((error: unknown) => error);
    expect(refusal instanceof RefusalError && refusal.refusal.code).toBe('NOT_PERMITTED');
  });
});
