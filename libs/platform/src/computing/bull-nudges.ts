import { setTimeout as pause } from 'node:timers/promises';
import { DelayedError, type Job, Queue, Worker } from 'bullmq';
import type { Redis } from 'ioredis';
import type { RealClock } from '../clock/real-clock.js';
import type { Database } from '../database/database.js';
import { log } from '../log/log.js';
import { connectRedis, redisOptions } from '../redis/redis.js';
import { findDue } from './claims.js';
import { Nudges } from './nudges.js';
import type { ComputeRunner } from './runner.js';

const queueName = 'computing';
const sweepMillis = 5_000;
/** A row that is overdue by so much has had its nudge swallowed, by whatever is left in the queue. */
const overdueMillis = 60_000;

const closeMillis = 5_000;

interface NudgeData {
  /** Nothing but the id: what is in Redis can be read by whoever reaches it. */
  id: string;
}

/**
 * Nudges through BullMQ. The rows in the database stay the truth, so the queue is written again from them at the
 * start and every so often: Redis may lose all of it.
 */
export class BullNudges extends Nudges {
  private readonly client: Redis;
  /** There once Redis has answered for the first time. */
  private queue: Queue<NudgeData> | null = null;
  private worker: Worker<NudgeData> | null = null;
  private sweepTimer: NodeJS.Timeout | null = null;
  private sweeping: Promise<void> = Promise.resolve();
  private isClosed = false;

  /** @param runner null for a process that asks and does not compute */
  constructor(
    private readonly redis: { url: string; prefix: string },
    private readonly database: Database,
    private readonly clock: RealClock,
    private readonly runner: ComputeRunner | null,
  ) {
    super();
    // Whoever asks must not wait for a Redis that is away; BullMQ itself must find it there when it begins.
    this.client = connectRedis(redis.url, 'fail fast');
    this.client.on('ready', () => {
      if (this.isClosed) return;
      this.queue ??= this.openQueue();
      // It may have come back with nothing in it.
      this.sweepSoon();
    });
  }

  start(): Promise<void> {
    if (this.runner) {
      const runner = this.runner;
      this.worker = new Worker<NudgeData>(queueName, (job, token) => runNudged(runner, job, token), {
        connection: redisOptions(this.redis.url, 'retry for ever'),
        prefix: this.redis.prefix,
        concurrency: 1,
        // A job whose worker is killed comes back so often; how often it may be started is counted in its row.
        maxStalledCount: 100,
      });
      // The connection below it has told the log already.
      this.worker.on('error', (error) => {
        log.debug({ error }, 'the queue is away');
      });
      this.worker.on('failed', (job, error) => {
        log.error({ error, jobId: job?.data.id }, 'a nudge failed');
      });
    }
    this.sweepTimer = setInterval(() => {
      this.sweepSoon();
    }, sweepMillis);
    return Promise.resolve();
  }

  nudge(jobId: string, dueAt: number): void {
    this.add(jobId, dueAt).catch((error: unknown) => {
      log.warn({ error, jobId }, 'a nudge was lost; the sweep finds it');
    });
  }

  async close(): Promise<void> {
    this.isClosed = true;
    if (this.sweepTimer) clearInterval(this.sweepTimer);
    await this.runner?.close();
    await this.sweeping;
    const closing = Promise.all([this.worker?.close(), this.queue?.close()]);
    // A Redis that is away must not keep the process from ending.
    await Promise.race([closing, pause(closeMillis, undefined, { ref: false })]);
    this.client.disconnect();
  }

  async check(): Promise<void> {
    await this.client.ping();
  }

  private openQueue(): Queue<NudgeData> {
    const queue = new Queue<NudgeData>(queueName, {
      connection: this.client,
      prefix: this.redis.prefix,
      defaultJobOptions: { removeOnComplete: true, removeOnFail: true },
    });
    queue.on('error', (error) => {
      log.debug({ error }, 'the queue is away');
    });
    return queue;
  }

  private sweepSoon(): void {
    if (this.isClosed || !this.queue) return;
    this.sweeping = this.sweeping.then(() => this.sweep());
  }

  private async add(jobId: string, dueAt: number): Promise<void> {
    if (!this.queue) throw new Error('Redis has not answered yet');
    await this.queue.add(
      'nudge',
      { id: jobId },
      { delay: Math.max(0, dueAt - this.clock.now()), deduplication: { id: jobId } },
    );
  }

  private async sweep(): Promise<void> {
    try {
      const now = this.clock.now();
      for (const job of await findDue(this.database.read, now, now + sweepMillis)) {
        if (job.dueAt < now - overdueMillis) await this.queue?.removeDeduplicationKey(job.id);
        await this.add(job.id, job.dueAt);
      }
    } catch (error) {
      log.warn({ error }, 'could not look for computing jobs');
    }
  }
}

async function runNudged(
  runner: ComputeRunner,
  job: Job<NudgeData>,
  token: string | undefined,
): Promise<void> {
  const lookAgainAt = await runner.run(job.data.id);
  if (lookAgainAt === null) return;
  await job.moveToDelayed(lookAgainAt, token);
  throw new DelayedError();
}
