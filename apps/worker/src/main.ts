import { NestFactory } from '@nestjs/core';
import { Config, ConfigError, log } from '@ribband/platform';
import { WorkerModule } from './worker.module.js';

const longestShutdownMillis = 15_000;

/** Why it does not start, in words for whoever starts it. */
class StartError extends Error {}

/** Takes computing jobs from the queue; any number of these processes may run beside the API. */
async function main(): Promise<void> {
  const config = Config.read(process.env);
  const missing = [
    config.databaseUrl
      ? ''
      : 'DATABASE_URL (postgres://...): a SQLite yard is computed by the process that serves it',
    config.redisUrl ? '' : 'REDIS_URL (redis://...): the queue from which it takes its work',
  ].filter((line) => line !== '');
  if (missing.length > 0)
    throw new StartError(['The worker needs', ...missing.map((line) => `  ${line}`)].join('\n'));
  const app = await NestFactory.createApplicationContext(WorkerModule.forRoot(config), {
    logger: false,
    abortOnError: false,
  });
  let isStopping = false;
  const stop = (signal: string): void => {
    if (isStopping) return;
    isStopping = true;
    log.info({ signal }, 'stopping');
    const tooLong = setTimeout(() => {
      log.error('did not stop in time');
      process.exit(1);
    }, longestShutdownMillis);
    // The search under way ends with the plan it has; what waits is left to the other processes.
    app.close().then(
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
  console.log('The worker takes computing jobs.');
}

process.on('unhandledRejection', (error) => {
  log.fatal({ error }, 'a promise was rejected and nobody listened');
  process.exit(1);
});

try {
  await main();
} catch (error) {
  if (error instanceof StartError || error instanceof ConfigError) console.error(error.message);
  else log.fatal({ error }, 'could not start');
  process.exit(1);
}
