import { scratchKinds } from '@ribband/platform';
import { TestHouse } from '../planning.fixture.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { Plans } from '../plans/plans.service.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import { replay } from './replay.js';

describe.each(scratchKinds())('a plan of the small yard on %s', (kind) => {
  let house: TestHouse;
  beforeEach(async () => {
    house = await TestHouse.open(kind);
    expect(
      Array.isArray(await house.app.get(YardBook).import(house.caller('director'), smallYard(), false)),
    ).toBe(false);
  });
  afterEach(() => house.close());

  it('is made after the yard was read in, and says when she is ready', async () => {
    const jobs = await house.settled();
    expect(jobs).toMatchObject([{ state: 'done', revision: 1, tries: 1, message: null }]);
    const plan = await house.app.get(Plans).inForce(house.caller('director'));
    expect(plan).toMatchObject({ revision: 1, notices: [] });
    expect(plan?.sentence).toMatch(
      /^Ready \d+ Mar, \d+ days before the gate on 17 Apr, if everyone comes who said so\.$/,
    );
    expect(plan?.daysToSpare).toBeGreaterThan(0);
    expect(await house.app.get(PlanShelf).inForce(house.organisationId)).not.toBeNull();
  });

  it('comes out the same when it is computed again from what was kept', async () => {
    await house.settled();
    const told = await house.app.get(PlanShelf).inForce(house.organisationId);
    const { isSame, kept, again } = await replay(house.database, told?.entity.id ?? '');
    expect(again.ready).toBe(kept.ready);
    expect(isSame).toBe(true);
  });
});
