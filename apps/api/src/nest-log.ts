import type { LoggerService } from '@nestjs/common';
import { log } from '@ribband/platform';

/** Lets the framework's own words go to our log; its chatter at the start stays out. */
export const nestLog: LoggerService = {
  log: (message: unknown) => log.debug({ message }, 'framework'),
  error: (message: unknown, ...rest: unknown[]) => log.error({ message, rest }, 'framework'),
  warn: (message: unknown, ...rest: unknown[]) => log.warn({ message, rest }, 'framework'),
  debug: (message: unknown) => log.trace({ message }, 'framework'),
};
