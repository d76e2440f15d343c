import { scratchKinds } from '@ribband/platform';
import { renew, startingMethods, surveyOf } from '../methods/hull-yard.fixture.js';
import { Work } from '../methods/work.service.js';
import { openSmallYard, type SmallYard } from '../repair.fixture.js';
import { Task } from '../tasks/task.entity.js';
import { heaviestPieces } from './heaviest-pieces.js';
import { TimberRules } from './settings.service.js';

describe.each(scratchKinds())('the heaviest piece that a task moves, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  it('is her plank or what is drawn of her frame, at the density that the yard says, and unknown for the rest', async () => {
    const shipwright = await yard.as('shipwright');
    await yard.get(Work).apply(shipwright, {
      survey: { value: surveyOf([renew(12, 12)]), version: null },
      methods: { value: startingMethods, version: null },
      reason: null,
    });
    const { organisationId } = yard;
    const { read } = yard.database;
    const tasks = await read.findBy(Task, { organisationId });
    const pounds = async () => {
      const found = await heaviestPieces(
        read,
        organisationId,
        tasks.map(({ id }) => id),
      );
      const of = (ending: RegExp) =>
        tasks.filter(({ ref }) => ending.test(ref)).map(({ id }) => found.get(id)?.toFixed(1));
      return { of, size: found.size };
    };
    const green = await pounds();
    // Computed by hand: 4.5 in sided, third futtock 7.7 strakes of 8 in, moulded 6.7 in there; 39 lb a cubic foot.
    expect(green.of(/^frame-12-starboard-set$/)).toEqual(['42.1']);
    const planks = green.of(/^(?!ceiling).*-steam-hang$/);
    expect(planks.length).toBeGreaterThan(0);
    // Nine bays of 20 in, 2 3/8 x 8 in.
    expect(planks).toContain('77.2');
    expect(green.of(/^vessel-/).every((one) => one === undefined)).toBe(true);
    expect(green.of(/^launch$/)).toEqual([undefined]);
    await yard.get(TimberRules).change(shipwright, 0, { poundsACubicFoot: 34 }, 'It is dry.');
    // 42.05 x 34 / 39
    expect((await pounds()).of(/^frame-12-starboard-set$/)).toEqual(['36.7']);
  });
});
