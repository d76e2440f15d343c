import {
  Config,
  ConfigError,
  DatabaseInUseError,
  endOnUnheardRejections,
  log,
  stopOnSignals,
} from '@ribband/platform';
import { howToSignIn, prepareDemo } from './demo/prepare-demo.js';
import { buildServer } from './server.js';

/** Starts everything in one process; with `--no-computing` the computing jobs are left to apps/worker. */
async function main(): Promise<void> {
  const config = Config.read(process.env);
  const isComputing = !process.argv.includes('--no-computing');
  if (!isComputing && !(config.databaseUrl && config.redisUrl)) {
    throw new StartError(
      'Without PostgreSQL and Redis one process serves and computes: set DATABASE_URL and REDIS_URL, or leave out --no-computing.',
    );
  }
  const server = await buildServer(config, isComputing ? 'run' : 'ask');
  stopOnSignals(() => server.close());
  const demo = await prepareDemo(server, config);
  const address = await server.listen();
  console.log(
    [`Ribband is at ${config.publicUrl ?? address}`, ...(demo ? howToSignIn(demo) : [])].join('\n'),
  );
}

/** Why it does not start, in words for whoever starts it. */
class StartError extends Error {}

endOnUnheardRejections();

try {
  await main();
} catch (error) {
  const isOurWords =
    error instanceof StartError || error instanceof ConfigError || error instanceof DatabaseInUseError;
  const code = (error as NodeJS.ErrnoException).code;
  if (isOurWords) console.error(error.message);
  else if (code === 'EADDRINUSE')
    console.error('The port is in use: set another PORT, or stop the other server.');
  else log.fatal({ error }, 'could not start');
  process.exit(1);
}
