import type { LoggerService } from '@nestjs/common';
import { log, RefusalError } from '@ribband/platform';
import { GraphQLError } from 'graphql';

/** Lets the framework's own words go to our log; its chatter at the start stays out. */
export const nestLog: LoggerService = {
  log: (message: unknown) => {
    log.debug({ message }, 'framework');
  },
  error(message: unknown, ...rest: unknown[]) {
    // The framework takes what GraphQL answers with for trouble; a refusal is none.
    if (message instanceof RefusalError || message instanceof GraphQLError) return;
    if (message instanceof Error) log.error({ error: message }, 'framework');
    else log.error({ message, rest }, 'framework');
  },
  warn: (message: unknown, ...rest: unknown[]) => {
    log.warn({ message, rest }, 'framework');
  },
  debug: (message: unknown) => {
    log.trace({ message }, 'framework');
  },
};
