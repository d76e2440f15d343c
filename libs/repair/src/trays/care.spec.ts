import { scratchKinds } from '@ribband/platform';
import { renew, startingMethods, surveyOf } from '../methods/hull-yard.fixture.js';
import { MethodsRecord } from '../methods/methods.entity.js';
import { Work } from '../methods/work.service.js';
import { openSmallYard, type SmallYard } from '../repair.fixture.js';
import { Task } from '../tasks/task.entity.js';
import { CareLevels } from './care.service.js';
import { TrayYard } from './tray-yard.service.js';

describe.each(scratchKinds())('a level of care, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const shipwright = () => yard.as('shipwright');
  const pulled = async (ref: string) => {
    const task = await yard.database.read.findOneByOrFail(Task, {
      organisationId: yard.organisationId,
      ref: `${ref}-pull-nails`,
    });
    return [task.low, task.likely, task.high];
  };
  const rate = async () => {
    const record = await yard.database.read.findOneByOrFail(MethodsRecord, {
      organisationId: yard.organisationId,
    });
    return record.methods.book.rates.find(({ key }) => key === 'nails-pulled');
  };

  it('is a rate of the yard’s methods: working the survey out anew does not undo it', async () => {
    const work = yard.get(Work);
    await work.apply(await shipwright(), {
      survey: { value: surveyOf([renew(12, 13)]), version: null },
      methods: { value: startingMethods, version: null },
      reason: null,
    });
    await yard.get(TrayYard).setUp(await shipwright());
    const plank = 'strake-12-plank-2-starboard';
    expect(await pulled(plank)).toEqual([3, 5, 8]);
    const levels = yard.get(CareLevels);
    await levels.choose(await shipwright(), 'plank nails', 'save all', 'the nails are part of her');
    expect(await pulled(plank)).toEqual([2.25, 3, 5]);
    expect(await rate()).toMatchObject({ likely: 3, usual: { low: 3, likely: 5, high: 8 } });

    await work.apply(await shipwright(), {
      survey: { value: surveyOf([renew(12, 14)]), version: 1 },
      reason: 'frame 14 was drilled too',
    });
    expect(await pulled(plank)).toEqual([2.25, 3, 5]);

    const [side] = await levels.sideBySide(await shipwright());
    expect(side.choices.find(({ care }) => care === 'save sound ones')?.perPersonHour.likely).toBe(5);
    await levels.choose(await shipwright(), 'plank nails', 'save sound ones', 'it takes too long');
    expect(await pulled(plank)).toEqual([3, 5, 8]);
    expect((await rate())?.usual).toBeUndefined();
  });
});
