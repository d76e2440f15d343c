import { Config, Database, DatabaseInUseError } from '@ribband/platform';
import { replay, schema } from '@ribband/planning';

/*
 * Computes a kept plan again from exactly what it was computed from, and says whether it comes out the same:
 *
 *   npm run replay -- plan_01932c07-...
 */
async function main(planId: string | undefined): Promise<boolean> {
  if (!planId) throw new Error('Say which plan: npm run replay -- PLAN_ID');
  const database = await Database.open(Config.read(process.env), schema);
  try {
    const { kept, again, isSame } = await replay(database, planId);
    const told = (plan: typeof kept) => `ready at minute ${plan.ready}, ${plan.segments.length} segments`;
    console.log(`kept:  ${told(kept)}, after ${kept.schedules} passes`);
    console.log(`again: ${told(again)}, after ${again.schedules} passes`);
    console.log(isSame ? 'The same plan.' : 'Another plan.');
    return isSame;
  } finally {
    await database.close();
  }
}

try {
  process.exitCode = (await main(process.argv[2])) ? 0 : 1;
} catch (error) {
  const hint = error instanceof DatabaseInUseError ? ' Stop the server first, or replay from a copy.' : '';
  console.error(`${error instanceof Error ? error.message : String(error)}${hint}`);
  process.exitCode = 1;
}
