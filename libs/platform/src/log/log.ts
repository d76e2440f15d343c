import { AsyncLocalStorage } from 'node:async_hooks';
import { pino } from 'pino';

/** The id of the request that is being served, so that every line says which one it belongs to. */
export const requestIds = new AsyncLocalStorage<string>();

/** The log of this process: JSON lines on standard error, which leaves standard output to what people read. */
export const log = pino(
  {
    level: process.env['LOG_LEVEL'] || 'info',
    base: null,
    serializers: { error: pino.stdSerializers.err },
    redact: ['*.password', '*.cookie', '*.authorization'],
    mixin: () => {
      const requestId = requestIds.getStore();
      return requestId ? { requestId } : {};
    },
  },
  pino.destination({ dest: 2, sync: true }),
);
