import { log } from '../log/log.js';

const longestShutdownMillis = 15_000;

/**
 * Ends this process in good order when it is told to (SIGTERM, SIGINT).
 * Whoever takes too long to close is ended with exit code 1.
 * @param close ends what is under way and lets go of what is held
 */
export function stopOnSignals(close: () => Promise<void>): void {
  let isStopping = false;
  const stop = (signal: string): void => {
    if (isStopping) return;
    isStopping = true;
    log.info({ signal }, 'stopping');
    const tooLong = setTimeout(() => {
      log.error('did not stop in time');
      process.exit(1);
    }, longestShutdownMillis);
    close().then(
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

/** Ends this process when a promise was rejected and nobody listened: what state it is in nobody knows. */
export function endOnUnheardRejections(): void {
  process.on('unhandledRejection', (error) => {
    log.fatal({ error }, 'a promise was rejected and nobody listened');
    process.exit(1);
  });
}
