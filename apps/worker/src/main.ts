import { NestFactory } from '@nestjs/core';
import { Config, ConfigError, endOnUnheardRejections, log, stopOnSignals } from '@ribband/platform';
import { WorkerModule } from './worker.module.js';

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
  // The search under way ends with the plan it has; what waits is left to the other processes.
  stopOnSignals(() => app.close());
  console.log('The worker takes computing jobs.');
}

endOnUnheardRejections();

try {
  await main();
} catch (error) {
  if (error instanceof StartError || error instanceof ConfigError) console.error(error.message);
  else log.fatal({ error }, 'could not start');
  process.exit(1);
}
