import { CardEntity, CardKind } from '@ribband/crew';
import { instantToLocal, scratchKinds } from '@ribband/platform';
import { Permits, SafetyTags } from '@ribband/repair';
import { TestHouse } from '../planning.fixture.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import { PlayOn } from './play-on.service.js';

describe.each(scratchKinds())('days that go by at the demo yard on %s', (kind) => {
  let house: TestHouse;
  beforeEach(async () => {
    house = await TestHouse.open(kind);
    const yard = smallYard();
    const { safety } = yard;
    if (!safety) throw new Error('the small yard has permits and tags');
    const document = {
      ...yard,
      safety: {
        ...safety,
        permits: safety.permits.map((one) => ({
          ...one,
          expiresAt: '2027-03-11T07:59:59.999Z',
          closed: null,
        })),
        tags: safety.tags.map((one) => ({ ...one, inspectedOn: '2027-02-20', expiresOn: '2027-03-12' })),
      },
      volunteers: yard.volunteers.map((one) => ({
        ...one,
        cards: one.cards.map((card) => ({ ...card, expiresOn: '2027-03-15' })),
      })),
    };
    const read = await house.app.get(YardBook).import(house.caller('director'), document, false);
    expect(Array.isArray(read)).toBe(false);
    await house.settled(60_000, ['plan']);
  }, 90_000);
  afterEach(() => house.close());

  it('renew what would run out meanwhile or in the week after, as people would write it down', async () => {
    const director = house.caller('director');
    const before = await house.app.get(SafetyTags).tags(director);
    const cards = await house.database.read.count(CardEntity);
    expect(before.length).toBeGreaterThan(0);
    expect(cards).toBeGreaterThan(0);
    await house.app.get(PlayOn).until(director, '2027-03-13');

    const tags = await house.app.get(SafetyTags).tags(director);
    expect(tags.map(({ kind: what, name }) => [what, name])).toEqual(
      before.map(({ kind: what, name }) => [what, name]),
    );
    expect(tags.map(({ inspectedOn }) => inspectedOn)).toEqual(before.map(() => '2027-03-12'));
    expect(tags.map(({ expiresOn }) => expiresOn)).toEqual(before.map(() => '2027-04-01'));

    const [permit] = await house.app.get(Permits).openPermits(director);
    expect(permit).toMatchObject({ kind: 'lead', by: 'Odalys Brenn', note: 'kept wet' });
    expect(instantToLocal(permit.opensAt, 'America/Los_Angeles')).toEqual({
      day: '2027-03-10',
      time: '08:00',
    });

    // They counted until after that day, and not until the end of the week that begins with it.
    const { id: kindId } = await house.database.read.findOneByOrFail(CardKind, { ref: 'first-aid' });
    const firstAid = await house.database.read.findBy(CardEntity, { kindId });
    expect(firstAid.map(({ expiresOn }) => expiresOn).sort()).toEqual(['2027-03-15', '2028-03-12']);
    expect(await house.database.read.count(CardEntity)).toBe(2 * cards);
  }, 90_000);
});
