import { scratchKinds } from '@ribband/platform';
import { openSmallYard, refusalOf, type SmallYard } from '../repair.fixture.js';
import { Link } from './link.entity.js';
import { Links } from './links.service.js';

describe.each(scratchKinds())('What waits for what, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const draft = async (before: string, after: string, over = {}) => ({
    beforeId: await yard.idOf(before),
    afterId: await yard.idOf(after),
    relation: 'finish-to-start' as const,
    lagMinutes: 0,
    lagKind: 'working' as const,
    ...over,
  });
  const links = () => yard.get(Links);

  it('a link is added, changed and taken away, and each asks for a plan', async () => {
    const shipwright = await yard.as('shipwright');
    const link = await links().add(shipwright, await draft('draw-futtocks', 'set-frame'));
    const edited = await links().edit(shipwright, link.id, 1, {
      lagMinutes: 600,
      relation: 'start-to-start',
    });
    expect(edited).toMatchObject({ version: 2, lagMinutes: 600, relation: 'start-to-start' });
    expect((await refusalOf(links().remove(shipwright, link.id, 1))).code).toBe('CHANGED_MEANWHILE');
    await links().remove(shipwright, link.id, 2);
    expect(await yard.database.read.countBy(Link, { id: link.id })).toBe(0);
    expect(await yard.revision()).toBe(3);
  });

  it('a circle is refused with the tasks in it by name', async () => {
    const shipwright = await yard.as('shipwright');
    await links().add(shipwright, await draft('draw-futtocks', 'set-frame'));
    const refused = await refusalOf(links().add(shipwright, await draft('set-frame', 'cut-bolts')));
    expect(refused).toMatchObject({ code: 'LINK_CIRCLE', field: 'beforeId' });
    expect(refused.message).toBe(
      'These would wait for one another: Frame 12: cut bolts at floor and clamp → Frame 12: draw futtocks → ' +
        'Frame 12: set new frame → Frame 12: cut bolts at floor and clamp.',
    );
  });

  it('two links that would close a circle together can’t both be added at the same moment', async () => {
    const shipwright = await yard.as('shipwright');
    const [one, other] = [await draft('draw-futtocks', 'set-frame'), await draft('set-frame', 'cut-bolts')];
    const added = await Promise.allSettled([links().add(shipwright, one), links().add(shipwright, other)]);
    expect(added.filter((result) => result.status === 'fulfilled')).toHaveLength(1);
  });

  it('a task can’t wait for itself, and two tasks are tied once in each way', async () => {
    const shipwright = await yard.as('shipwright');
    expect(await refusalOf(links().add(shipwright, await draft('launch', 'launch')))).toMatchObject({
      code: 'LINK_CIRCLE',
      field: 'afterId',
    });
    expect(await refusalOf(links().add(shipwright, await draft('cut-bolts', 'draw-futtocks')))).toMatchObject(
      {
        code: 'ALREADY_EXISTS',
      },
    );
    const another = await draft('cut-bolts', 'draw-futtocks', { relation: 'finish-to-finish' });
    await expect(links().add(shipwright, another)).resolves.toBeDefined();
  });

  it('an unknown task and a lag of four thousand days are named by their fields', async () => {
    const shipwright = await yard.as('shipwright');
    const unknown = { ...(await draft('cut-bolts', 'launch')), beforeId: 'task_none' };
    expect(await refusalOf(links().add(shipwright, unknown))).toMatchObject({
      code: 'NOT_FOUND',
      field: 'beforeId',
    });
    const long = await draft('cut-bolts', 'launch', { lagMinutes: 4000 * 1440 });
    expect(await refusalOf(links().add(shipwright, long))).toMatchObject({ field: 'lagMinutes' });
  });
});
