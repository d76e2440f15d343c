import {
  type DatabaseKind,
  differences,
  migrate,
  openScratchDatabase,
  platformEntities,
  platformMigrations,
  scratchKinds,
} from '@ribband/platform';
import { accessEntities, accessMigrations } from './access.schema.js';

describe.each(scratchKinds())('the records of access on %s', (kind: DatabaseKind) => {
  it('have the tables that their entities ask for, and nothing is left to migrate', async () => {
    const scratch = await openScratchDatabase(
      {
        entities: [...platformEntities, ...accessEntities],
        migrations: [...platformMigrations, ...accessMigrations],
      },
      kind,
    );
    try {
      expect(await differences(scratch.database.internals)).toEqual([]);
      expect(await migrate(scratch.database.internals)).toEqual([]);
      expect(await scratch.database.isReady()).toBe(true);
    } finally {
      await scratch.close();
    }
  });
});
