import { alone } from './postgres.js';
import type { Store } from './store.js';

/** Runs the migrations that the database lacks, oldest first, each in a transaction of its own. */
export async function migrate(store: Store): Promise<string[]> {
  const done: string[] = [];
  const run = async (): Promise<void> => {
    for (const migration of await store.admin.runMigrations({ transaction: 'each' }))
      done.push(migration.name);
  };
  // On SQLite this process is the only one.
  if (store.kind === 'postgres') await alone(store.admin, run);
  else await run();
  return done;
}

/** The statements that would be needed to make the tables fit the entities: none, if the migrations are right. */
export async function differences(store: Store): Promise<string[]> {
  const plan = await store.admin.driver.createSchemaBuilder().log();
  return plan.upQueries.map((statement) => statement.query);
}
