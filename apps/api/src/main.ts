import { Config, ConfigError, DatabaseInUseError, log } from '@ribband/platform';
import { howToSignIn, prepareDemo } from './demo/prepare-demo.js';
import { buildServer, type Server } from './server.js';

const longestShutdownMillis = 15_000;

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
  stopOnSignals(server);
  const demo = await prepareDemo(server, config);
  const address = await server.listen();
  console.log(
    [`Ribband is at ${config.publicUrl ?? address}`, ...(demo ? howToSignIn(demo) : [])].join('\n'),
  );
}

/** Why it does not start, in words for whoever starts it. */
class StartError extends Error {}

function stopOnSignals(server: Server): void {
  let isStopping = false;
  const stop = (signal: string): void => {
    if (isStopping) return;
    isStopping = true;
    log.info({ signal }, 'stopping');
    const tooLong = setTimeout(() => {
      log.error('did not stop in time');
      process.exit(1);
    }, longestShutdownMillis);
    server.close().then(
      () => {
        clearTimeout(tooLong);
        process.exit(0);
      },
      (error: unknown) => {
        log.error({ error }, 'could not stop in good order');
        process.exit(1);
      },
    );
  };
  process.on('SIGTERM', stop);
  process.on('SIGINT', stop);
}

process.on('unhandledRejection', (error) => {
  log.fatal({ error }, 'a promise was rejected and nobody listened');
  process.exit(1);
});

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
