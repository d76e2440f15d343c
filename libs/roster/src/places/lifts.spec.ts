import { readFileSync } from 'node:fs';
import { newId, scratchKinds } from '@ribband/platform';
import { HaulOut, HullRecord, TaskOrigin } from '@ribband/repair';
import { TestYard } from '../roster.fixture.js';

const { hull } = JSON.parse(
  readFileSync(new URL('../../../../fixtures/demo-yard.json', import.meta.url), 'utf8'),
);
// Fifteen feet of planking, about 77 lb: three carriers.
const plank = 'strake-6-plank-2-starboard';

describe.each(scratchKinds())('a task that moves a plank, on %s', (kind) => {
  let yard: TestYard;
  beforeEach(async () => {
    yard = await TestYard.open(kind);
  });
  afterEach(() => yard.close());

  it('stops a crew of fewer than carry it, and on staging asks for lifting gear with a tag', async () => {
    const { organisationId } = yard;
    const { database, overrides, turnouts } = yard.at;
    const coordinator = yard.caller('coordinator');
    const times = { startTime: '09:00', endTime: '14:00' };
    const turnoutId = (await turnouts.add(coordinator, { on: '2027-03-06', ...times })).id;
    const carry = await yard.addTask('Carry a plank', { hazards: ['lifting'] });
    const high = await yard.addTask('Take a plank from the staging', { hazards: ['lifting', 'fall'] });
    const unknown = await yard.addTask('Carry a bench', { hazards: ['lifting'] });
    await database.write(async (manager) => {
      const haulOut = await manager.findOneByOrFail(HaulOut, { organisationId });
      await manager.insert(HullRecord, {
        id: newId('hull'),
        ...{ organisationId, haulOutId: haulOut.id, version: 1, outline: hull.outline },
        ...{ changedBy: 'shipwright', changedAt: 0 },
      });
      for (const taskId of [carry, high])
        await manager.insert(TaskOrigin, {
          id: newId('origin'),
          ...{ organisationId, taskId, element: plank, step: 'lift-off' },
          ...{ methodKey: 'renew-plank', methodVersion: 1 },
        });
    });
    const volunteerId = (await yard.hand('hand-2')).volunteerId ?? '';
    const stops = async (taskId: string) =>
      (await overrides.stops(coordinator, { turnoutId, taskId, volunteerId })).map(({ rule }) => rule);
    const alone = await stops(carry);
    expect(alone).toContain('carriers');
    expect(alone).not.toContain('lifting-gear');
    expect(await stops(high)).toContain('lifting-gear');
    expect(await stops(unknown)).not.toContain('carriers');
    for (const ref of ['hand-3', 'hand-4']) {
      const other = (await yard.hand(ref)).volunteerId;
      await yard.addPlace({ turnoutId, taskId: carry, state: 'taken', volunteerId: other });
    }
    expect(await stops(carry)).not.toContain('carriers');
  });
});
