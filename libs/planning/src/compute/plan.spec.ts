import { localToInstant, scratchKinds, YardClock } from '@ribband/platform';
import { verifyPlan } from '../../../../test/engine/verify-plan.js';
import { buildProblem } from '../problem/build-problem.js';
import { YardLoader } from './load-yard.js';
import { TestHouse } from '../planning.fixture.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { Plans } from '../plans/plans.service.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import { Overtaken } from './overtaken.js';
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

  it('is asked for anew when a turnout has gone by, once, however many look', async () => {
    await house.settled();
    const overtaken = house.app.get(Overtaken);
    await overtaken.look();
    expect(await house.settled()).toHaveLength(1);
    const evening = localToInstant('2027-03-06', '18:00', 'America/Los_Angeles');
    await house.database.write((manager) =>
      house.app.get(YardClock).set(manager, house.organisationId, evening),
    );
    await Promise.all([overtaken.look(), overtaken.look()]);
    const jobs = await house.settled();
    expect(jobs.map((job) => job.why)).toEqual(['a yard was read in', 'a turnout went by']);
    await overtaken.look();
    expect(await house.settled()).toHaveLength(2);
  });

  it('may use a limit that was set aside up to the last day of that, and no longer', async () => {
    await house.settled();
    // The small yard's shipwright has set its limit aside until 31 May.
    const problem = async () => {
      const yard = await house.app.get(YardLoader).load(house.database.read, house.organisationId);
      return buildProblem({ ...yard!.records, hands: [] }).problem;
    };
    const { openingLimits } = await problem();
    const zone = 'America/Los_Angeles';
    const midnight = (day: string) => localToInstant(day, '00:00', zone);
    const from = (midnight('2027-06-01') - midnight('2027-03-06')) / 60_000;
    expect(openingLimits).toMatchObject([{ name: 'open strakes', atMost: 1, from }]);
    const told = await house.app.get(PlanShelf).inForce(house.organisationId);
    expect(verifyPlan(told!.problem, told!.plan!)).toEqual([]);
    expect(told!.problem.openingLimits).toEqual(openingLimits);
    await house.database.write((manager) =>
      house.app.get(YardClock).set(manager, house.organisationId, midnight('2027-06-01')),
    );
    expect((await problem()).openingLimits.map(({ from }) => from)).toEqual([undefined]);
  });

  it('comes out the same when it is computed again from what was kept', async () => {
    await house.settled();
    const told = await house.app.get(PlanShelf).inForce(house.organisationId);
    const { isSame, kept, again } = await replay(house.database, told?.entity.id ?? '');
    expect(again.ready).toBe(kept.ready);
    expect(isSame).toBe(true);
  });
});
