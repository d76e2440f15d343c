import { plainBeliefs } from '@ribband/engine';
import { scratchKinds } from '@ribband/platform';
import { CareLevels } from '@ribband/repair';
import { beliefsFor } from '../beliefs/beliefs.js';
import { readExperience } from '../beliefs/read-experience.js';
import { TestHouse } from '../planning.fixture.js';
import { PlanShelf } from '../plans/plan-shelf.service.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import type { YardDocument } from '../yard/yard-document.js';
import { YardBook } from '../yard/yard-book.service.js';
import { YardBoard } from '@ribband/repair';
import { atRate } from './at-care.js';
import { CareOddsEntity } from './care-odds.entity.js';
import { CareOddsDesk } from './care-odds.service.js';

/** The small yard with 260 nails of another plank that nobody has begun to pull. */
function manyNails(): YardDocument {
  const yard = smallYard();
  const [pull] = yard.tasks;
  const link = yard.links.find(({ before }) => before === pull.ref);
  if (!link) throw new Error('the nails are pulled before something');
  const count = {
    by: 'count',
    unit: 'nails',
    count: 260,
    perPersonHour: { low: 3, likely: 5, high: 8 },
  } as const;
  yard.tasks.push({ ...pull, ref: 'pull-more', title: 'Pull the rest', opens: [], estimate: count });
  yard.links.push({ ...link, before: 'pull-more' });
  for (const tray of yard.cameOff.trays) tray.pullTask = 'pull-more';
  return yard;
}

describe.each(scratchKinds())('the odds of each level of care on %s', (kind) => {
  let house: TestHouse;
  beforeEach(async () => {
    house = await TestHouse.open(kind);
    const read = await house.app.get(YardBook).import(house.caller('director'), manyNails(), false);
    expect(Array.isArray(read)).toBe(false);
    await house.settled(60_000);
  }, 90_000);
  afterEach(() => house.close());

  const desk = () => house.app.get(CareOddsDesk);

  it('are not there before somebody asks, wait, and are then those of the plan in force', async () => {
    const { organisationId } = house;
    expect(await desk().known(organisationId)).toEqual([]);
    await expect(desk().ask(house.caller('volunteer'))).rejects.toThrow();
    expect(await desk().ask(house.caller('shipwright'))).toBe(3);
    expect(await desk().ask(house.caller('shipwright'))).toBe(0);
    await house.settled(90_000);
    const known = await desk().known(organisationId);
    expect(known.map(({ care, state }) => [care, state])).toEqual([
      ['save all', 'done'],
      ['save sound ones', 'done'],
      ['renew', 'done'],
    ]);
    const [all, sound] = known.map(({ gate }) => gate?.odds ?? -1);
    for (const { gate } of known) expect(gate?.odds).toBeGreaterThanOrEqual(0);
    // Saving all goes at 3 nails an hour instead of 5: it can't make the gate more likely.
    expect(all).toBeLessThanOrEqual(sound);

    // As a computing job leaves it that failed, or that died with its process: nobody works at it any more.
    const left = { organisationId, care: 'renew' } as const;
    await house.database.write((manager) =>
      manager.update(CareOddsEntity, left, { state: 'waiting', gate: null }),
    );
    expect((await desk().known(organisationId))[2]).toMatchObject({
      state: 'failed',
      message: expect.stringContaining('Ask again') as string,
    });
    await house.database.write((manager) => manager.update(CareOddsEntity, left, { state: 'failed' }));
    expect(await desk().ask(house.caller('shipwright'))).toBe(1);
    await house.settled(90_000);
    expect((await desk().known(organisationId)).map(({ state }) => state)).toEqual(['done', 'done', 'done']);
  }, 150_000);

  it('change the hours and the pace of work not begun, and nothing else', async () => {
    const manager = house.database.read;
    const told = await house.app.get(PlanShelf).inForce(house.organisationId);
    const board = await house.app.get(YardBoard).of(manager, house.organisationId);
    const known = await readExperience(manager, house.organisationId, board);
    const choices = await house.app.get(CareLevels).ifChosen(manager, house.organisationId);
    const { problem } = told!;
    const at = (care: string) => {
      const choice = choices.find((one) => one.care === care)!;
      return { rate: choice.rate, other: atRate(problem, known, choice.tasks, choice.rate) };
    };
    expect(at('save sound ones').other).toBeNull();
    const { rate, other } = at('save all');
    const i = problem.tasks.findIndex(({ name }) => name === 'Pull the rest');
    expect(other!.problem.tasks[i].effort).toEqual({ kind: 'work', personMinutes: (260 / 3) * 60 });
    other!.problem.tasks.forEach((task, k) => {
      if (k !== i) expect(task).toBe(problem.tasks[k]);
    });
    const { beliefs } = beliefsFor(other!.problem, other!.known);
    expect(beliefs.tasks[i].plannedPace).toBe(rate.likely);
    expect(beliefs.tasks).toHaveLength(plainBeliefs(problem).tasks.length);
  });
});
