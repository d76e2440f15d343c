import { accessEntities, accessMigrations } from '@ribband/access';
import {
  differences,
  migrate,
  openScratchDatabase,
  platformEntities,
  platformMigrations,
  scratchKinds,
} from '@ribband/platform';
import { crewEntities, crewMigrations } from './crew.schema.js';

const schema = {
  entities: [...platformEntities, ...accessEntities, ...crewEntities],
  migrations: [...platformMigrations, ...accessMigrations, ...crewMigrations],
};

describe.each(scratchKinds())('The crew’s tables on %s', (kind) => {
  it('are what the records say, and a second run has nothing to do', async () => {
    const scratch = await openScratchDatabase(schema, kind);
    expect(await differences(scratch.database.internals)).toEqual([]);
    expect(await migrate(scratch.database.internals)).toEqual([]);
    await scratch.close();
  });
});
