import { scratchKinds } from '@ribband/platform';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { renew, startingMethods, surveyOf } from '../methods/hull-yard.fixture.js';
import { Work } from '../methods/work.service.js';
import { openSmallYard, type SmallYard } from '../repair.fixture.js';
import type { Finding } from '../survey/survey-shape.js';
import { Task } from '../tasks/task.entity.js';
import { NewPieces } from './new-pieces.js';

const sister = (frame: number, pieces: number[]): Finding => ({
  frames: [frame, frame],
  side: 'starboard',
  pieces,
  condition: 'sister',
  cause: null,
  ...{ by: 'Odalys Brenn', on: '2026-10-17', note: 'cracked at the bolt' },
});

describe.each(scratchKinds())('what is made new, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  it('a sister frame wants stock too, for the task that saws it; none beside a frame that is renewed', async () => {
    await yard.get(Work).apply(await yard.as('shipwright'), {
      survey: { value: surveyOf([renew(12, 12), sister(12, [2]), sister(20, [3])]), version: null },
      methods: { value: startingMethods, version: null },
      reason: null,
    });
    const { read } = yard.database;
    const haulOut = await haulOutInForce(read, yard.organisationId);
    if (!haulOut) throw new Error('she is not hauled out');
    const { pieces } = await yard.get(NewPieces).of(read, haulOut);
    const sisters = pieces.filter(({ key }) => key.endsWith('-sister'));
    expect(sisters).toMatchObject([
      {
        key: 'frame-20-starboard-futtock-3-sister',
        name: 'sister beside frame 20 starboard third futtock',
        use: 'frames',
        task: 'frame-20-starboard-saw',
      },
    ]);
    const where = { organisationId: yard.organisationId, ref: 'frame-20-starboard-saw' };
    expect(await read.existsBy(Task, where)).toBe(true);
    expect(pieces.map(({ key }) => key)).toContain('frame-12-starboard-futtock-3');
  });
});
