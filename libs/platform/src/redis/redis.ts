import { Redis, type RedisOptions } from 'ioredis';
import { log } from '../log/log.js';

/**
 * What to do while Redis is away: `fail fast` for those who ask (the database remembers for them), `retry for
 * ever` for those who listen or work.
 */
export type WhenAway = 'fail fast' | 'retry for ever';

/** Settings of a connection, as ioredis and BullMQ take them. */
export function redisOptions(url: string, whenAway: WhenAway) {
  const parts = new URL(url);
  return {
    host: parts.hostname,
    port: Number(parts.port || 6379),
    ...(parts.username ? { username: decodeURIComponent(parts.username) } : {}),
    ...(parts.password ? { password: decodeURIComponent(parts.password) } : {}),
    ...(parts.pathname.length > 1 ? { db: Number(parts.pathname.slice(1)) } : {}),
    ...(parts.protocol === 'rediss:' ? { tls: {} } : {}),
    maxRetriesPerRequest: whenAway === 'fail fast' ? 1 : null,
    enableOfflineQueue: whenAway === 'retry for ever',
    retryStrategy: (times: number) => Math.min(50 * 2 ** Math.min(times, 10), 5_000),
  } satisfies RedisOptions;
}

/** Opens a connection that tells the log when Redis goes away and when it is back. */
export function connectRedis(url: string, whenAway: WhenAway): Redis {
  const client = new Redis(redisOptions(url, whenAway));
  let isAway = false;
  client.on('error', (error) => {
    // It tries again every few seconds; once is enough.
    if (!isAway) log.warn({ error }, 'Redis is away');
    isAway = true;
  });
  client.on('ready', () => {
    if (isAway) log.info('Redis is back');
    isAway = false;
  });
  return client;
}
