import type { Outcome } from '@ribband/engine';
import { newId, scratchKinds } from '@ribband/platform';
import { TestHouse } from '../planning.fixture.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import type { PlanInput } from '../plans/plan-input.js';
import { buildProblem } from '../problem/build-problem.js';
import { records } from '../problem/yard-records.fixture.js';
import { PlanEntity } from '../plans/plan.entity.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import { publish } from './publish.js';

const { problem, epochAt, linkIds } = buildProblem(records());
const input: PlanInput = {
  format: 'ribband-plan-input/1',
  epochAt,
  timeZone: 'America/Los_Angeles',
  slots: [],
  linkIds,
  problem,
  seed: 1,
  warm: null,
};

function ready(minute: number): Outcome {
  return {
    kind: 'plan',
    plan: {
      format: 'ribband-plan/1',
      ready: minute,
      slot: null,
      segments: [],
      tasks: [],
      launchChain: [],
      bound: { ready: 0, kind: 'critical path', bottleneck: null },
      proved: false,
      postingsChanged: 0,
      schedules: 1,
    },
  };
}

describe.each(scratchKinds())('putting a plan in force on %s', (kind) => {
  let house: TestHouse;
  beforeEach(async () => {
    house = await TestHouse.open(kind, 'ask');
  });
  afterEach(() => house.close());

  const put = (revision: number, outcome: Outcome, jobId = newId('compute'), isLast = false) =>
    house.database.write((manager) =>
      publish(manager, {
        organisationId: house.organisationId,
        jobId,
        revision,
        input,
        outcome,
        notices: [],
        madeAt: 0,
        isLast,
      }),
    );
  const inForce = async () => {
    const told = await house.app.get(PlanShelf).inForce(house.organisationId);
    return told && [told.entity.revision, told.plan?.ready ?? null];
  };

  it('never lets a plan of older records take the place of one of newer records, however good it is', async () => {
    await put(5, ready(900));
    expect(await put(4, ready(100))).toBeNull();
    expect(await inForce()).toEqual([5, 900]);
  });

  it('lets a newer plan take the place of an older one, however bad it is', async () => {
    await put(5, ready(100));
    await put(6, { kind: 'no plan', wishes: [] });
    expect(await inForce()).toEqual([6, null]);
    await put(7, ready(900));
    expect(await inForce()).toEqual([7, 900]);
  });

  it('lets only a better plan of the same records take its place', async () => {
    await put(5, { kind: 'no plan', wishes: [] });
    await put(5, ready(900));
    expect(await put(5, ready(900))).toBeNull();
    expect(await put(5, ready(901))).toBeNull();
    await put(5, ready(800));
    expect(await inForce()).toEqual([5, 800]);
  });

  it('lets no plan in that was being made when another yard was read in', async () => {
    const book = house.app.get(YardBook);
    await book.import(house.caller('director'), smallYard(), false);
    expect(await put(0, ready(900))).toBeNull();
    await put(1, ready(900));
    await book.import(house.caller('director'), smallYard(), true);
    expect(await inForce()).toBeNull();
    expect(await put(1, ready(100))).toBeNull();
    await put(2, ready(900));
    expect(await inForce()).toEqual([2, 900]);
  });

  it('lets a run say more about its own plan at its end, or put one as good in its place, and no other run', async () => {
    const proved = (outcome: Outcome): Outcome =>
      outcome.kind === 'plan'
        ? { ...outcome, plan: { ...outcome.plan, proved: true, schedules: 50 } }
        : outcome;
    const first = await put(5, ready(900), 'compute_1');
    expect(await put(5, proved(ready(900)), 'compute_2', true)).toBeNull();
    const said = await put(5, proved(ready(900)), 'compute_1', true);
    expect(said?.id).toBe(first?.id);
    const told = await house.app.get(PlanShelf).inForce(house.organisationId);
    expect([told?.plan?.proved, told?.entity.schedules]).toEqual([true, 50]);
    const other = ready(900);
    if (other.kind === 'plan')
      other.plan.segments = [{ task: 0, turnout: 0, start: 540, end: 600, crew: [] }];
    const replaced = await put(5, other, 'compute_1', true);
    expect(replaced?.id).not.toBe(first?.id);
    expect((await house.app.get(PlanShelf).inForce(house.organisationId))?.entity.id).toBe(replaced?.id);
  });

  it('keeps the last twenty besides the one in force, and those that people were posted from', async () => {
    const first = await put(1, ready(900));
    await house.database.write((manager) =>
      manager.query(
        `INSERT INTO turnout (id, "organisationId", version, "heldOn", "startTime", "endTime", "startsAt", "endsAt")
         VALUES ('turnout_1', '${house.organisationId}', 1, '2027-03-06', '09:00', '14:00', 0, 1)`,
      ),
    );
    await house.database.write((manager) =>
      manager.query(
        `INSERT INTO place (id, "organisationId", "turnoutId", "taskId", version, level, state, "startsAt", "endsAt", "planId")
         VALUES ('place_1', '${house.organisationId}', 'turnout_1', 'task_1', 1, 0, 'posted', 0, 1, '${first?.id ?? ''}')`,
      ),
    );
    for (let revision = 2; revision <= 30; revision++) await put(revision, ready(900));
    const kept = await house.database.read.find(PlanEntity, { order: { revision: 'ASC' } });
    expect(kept.map((plan) => plan.revision)).toEqual([1, ...Array.from({ length: 21 }, (_, i) => 10 + i)]);
  });

  it('ends with the newest and best of many that are put at once', async () => {
    const many = Array.from({ length: 24 }, (_, i) => [1 + (i % 3), 1000 - i] as const);
    await Promise.all(many.map(([revision, minute]) => put(revision, ready(minute))));
    expect(await inForce()).toEqual([3, 977]);
  });
});
