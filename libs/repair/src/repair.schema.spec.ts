import { accessEntities, accessMigrations } from '@ribband/access';
import { crewEntities, crewMigrations } from '@ribband/crew';
import {
  differences,
  migrate,
  openScratchDatabase,
  platformEntities,
  platformMigrations,
  scratchKinds,
} from '@ribband/platform';
import { repairEntities, repairMigrations } from './repair.schema.js';

const schema = {
  entities: [...platformEntities, ...accessEntities, ...crewEntities, ...repairEntities],
  migrations: [...platformMigrations, ...accessMigrations, ...crewMigrations, ...repairMigrations],
};

describe.each(scratchKinds())('The repair’s tables on %s', (kind) => {
  it('are what the records say, and a second run has nothing to do', async () => {
    const scratch = await openScratchDatabase(schema, kind);
    expect(await differences(scratch.database.internals)).toEqual([]);
    expect(await migrate(scratch.database.internals)).toEqual([]);
    await scratch.close();
  });
});
