import { accessEntities, accessMigrations } from '@ribband/access';
import { crewEntities, crewMigrations } from '@ribband/crew';
import {
  type DatabaseKind,
  differences,
  migrate,
  openScratchDatabase,
  platformEntities,
  platformMigrations,
  scratchKinds,
} from '@ribband/platform';
import { rosterEntities, rosterMigrations } from './roster.schema.js';

describe.each(scratchKinds())('the records of the roster on %s', (kind: DatabaseKind) => {
  it('have the tables that their entities ask for, and nothing is left to migrate', async () => {
    const scratch = await openScratchDatabase(
      {
        // Whom a learner's place names is looked up among the crew.
        entities: [...platformEntities, ...accessEntities, ...crewEntities, ...rosterEntities],
        migrations: [...platformMigrations, ...accessMigrations, ...crewMigrations, ...rosterMigrations],
      },
      kind,
    );
    try {
      expect(await differences(scratch.database.internals)).toEqual([]);
      expect(await migrate(scratch.database.internals)).toEqual([]);
    } finally {
      await scratch.close();
    }
  });
});
