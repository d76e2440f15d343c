import { scratchKinds } from '@ribband/platform';
import { renew, startingMethods, surveyOf } from '../methods/hull-yard.fixture.js';
import { Work } from '../methods/work.service.js';
import { Pieces } from '../pieces/pieces.service.js';
import { openSmallYard, plain, refusalOf, type SmallYard } from '../repair.fixture.js';
import { SaySos } from '../tallies/say-so.service.js';
import { Tallies } from '../tallies/tallies.service.js';
import { Tasks } from '../tasks/tasks.service.js';
import { HoleBook } from '../trays/hole-book.service.js';
import { TrayYard } from '../trays/tray-yard.service.js';
import { Tray } from '../trays/tray.entity.js';
import { Trays } from '../trays/trays.service.js';
import { Handover } from './handover.service.js';

describe.each(scratchKinds())('The handover pack, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  it('tells of a timber what was done, how long it took and who passed it, and names no volunteer', async () => {
    const shipwright = await yard.as('shipwright');
    await yard.get(Pieces).tag(shipwright, {
      ...{ name: 'Strake 11, forward plank', place: 'Starboard', face: null, heading: null },
      ...{ elementKey: 'strake-11-plank-1-starboard', fate: 'refit', keptAt: null, cameOffOn: null },
    });
    const task = await yard
      .get(Tasks)
      .add(shipwright, { ...plain, title: 'Strake 11 plank 1 starboard dress' });
    const volunteer = await yard.as('volunteer', 'marguerite-alkin');
    await yard.get(Tallies).enter(volunteer, {
      ...{ taskId: task.id, volunteerId: null, turnoutId: null, on: null, count: null },
      ...{ minutes: 90, finished: true, note: null },
    });
    await yard.get(SaySos).pass(shipwright, task.id, 'primed on the back');
    const timbers = await yard.get(Handover).all(shipwright);
    const plank = timbers.find((one) => one.key === 'strake-11-plank-1-starboard');
    expect(plank).toMatchObject({ minutes: 90, pieces: [{ fate: 'refit' }], newHoles: null, openedAt: null });
    expect(plank?.story.at(-1)).toMatchObject({
      words: 'Passed: Strake 11 plank 1 starboard dress. primed on the back',
      by: 'The shipwright',
    });
    expect(JSON.stringify(timbers)).not.toMatch(/Marguerite|volunteer/i);
  });

  it('tells when a plank was opened, and how many new holes its fastenings make', async () => {
    const shipwright = await yard.as('shipwright');
    await yard.get(Work).apply(shipwright, {
      survey: { value: surveyOf([renew(12, 13)]), version: null },
      methods: { value: startingMethods, version: null },
      reason: null,
    });
    await yard.get(TrayYard).setUp(shipwright);
    const ref = 'strake-12-plank-2-starboard';
    const { organisationId } = yard;
    const tray = await yard.database.read.findOneByOrFail(Tray, { organisationId, elementKey: ref });
    const [hole] = await yard.get(HoleBook).holesOf(yard.database.read, tray);
    const graded = { key: hole.key, nail: 'scrap' as const, hole: 'enlarged' as const, plugTenths: 160 };
    await yard.get(Trays).enter(
      shipwright,
      tray.id,
      {
        ...{ frame: null, counts: { drawn: 1 }, leftReason: null, lostReason: null },
        ...{ holes: [graded], counted: null, lotId: null, note: null },
      },
      { minutes: 60, finished: false, volunteerId: null, turnoutId: null, on: null },
    );
    const plank = (await yard.get(Handover).all(shipwright)).find(({ key }) => key === ref);
    expect(plank?.openedAt).not.toBeNull();
    expect(plank?.shutAt).toBeNull();
    expect(plank?.newHoles).toMatchObject({ graded: 1, newHoles: 1 });
  });

  it('is for the yard’s staff', async () => {
    const asked = yard.get(Handover).all(await yard.as('volunteer', 'marguerite-alkin'));
    expect((await refusalOf(asked)).code).toBe('NOT_PERMITTED');
  });
});
