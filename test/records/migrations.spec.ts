import { Database, differences, migrate, scratchKinds, scratchPlace } from '@ribband/platform';
import { schema } from '@ribband/planning';

describe.each(scratchKinds())('the records of the whole house on %s', (kind) => {
  it('come from nothing to the newest migration, fit the entities, and have nothing to do a second time', async () => {
    const place = await scratchPlace(kind);
    const first = await Database.open(place, schema);
    expect(await first.isReady()).toBe(true);
    expect(await differences(first.internals)).toEqual([]);
    expect(await migrate(first.internals)).toEqual([]);
    await first.close();
    const second = await Database.open(place, schema);
    expect(await second.isReady()).toBe(true);
    expect(await differences(second.internals)).toEqual([]);
    await second.close();
    await place.remove();
  });

  it('are migrated once when several processes start at the same moment', async () => {
    const place = await scratchPlace(kind);
    const starts = await Promise.allSettled([1, 2, 3].map(() => Database.open(place, schema)));
    const opened = starts.filter((start) => start.status === 'fulfilled').map((start) => start.value);
    // A SQLite file is for one process; on PostgreSQL the others wait their turn.
    expect(opened).toHaveLength(kind === 'sqlite' ? 1 : 3);
    for (const database of opened) expect(await database.isReady()).toBe(true);
    for (const database of opened) await database.close();
    await place.remove();
  });
});
