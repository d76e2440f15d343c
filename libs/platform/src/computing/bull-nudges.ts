import { DelayedError, type Job, Queue, Worker } from 'bullmq';
import type { RealClock } from '../clock/real-clock.js';
import type { Database } from '../database/database.js';
import { log } from '../log/log.js';
import { redisOptions } from '../redis/redis.js';
import { findDue } from './claims.js';
import { Nudges } from './nudges.js';
import type { ComputeRunner } from './runner.js';

const queueName = 'ribband-computing';
const sweepMillis = 15_000;
/** A row that is overdue by so much has had its nudge swallowed, by whatever is left in the queue. */
const overdueMillis = 60_000;

interface NudgeData {
  /** Nothing but the id: what is in Redis can be read by whoever reaches it. */
  id: string;
}

/**
 * Nudges through BullMQ. The rows in the database stay the truth, so the queue is written again from them at the
 * start and every so often: Redis may lose all of it.
 */
export class BullNudges extends Nudges {
  private readonly queue: Queue<NudgeData>;
  private worker: Worker<NudgeData> | null = null;
  private sweepTimer: NodeJS.Timeout | null = null;
  private sweeping: Promise<void> = Promise.resolve();

  /** @param runner null for a process that asks and does not compute */
  constructor(
    private readonly redisUrl: string,
    private readonly database: Database,
    private readonly clock: RealClock,
    private readonly runner: ComputeRunner | null,
  ) {
    super();
    // Whoever asks must not wait for a Redis that is away.
    this.queue = new Queue<NudgeData>(queueName, {
      connection: redisOptions(redisUrl, 'fail fast'),
      skipWaitingForReady: true,
      defaultJobOptions: { removeOnComplete: true, removeOnFail: true },
    });
    this.queue.on('error', (error) => log.warn({ error }, 'the queue is away'));
  }

  async start(): Promise<void> {
    if (this.runner) {
      const runner = this.runner;
      this.worker = new Worker<NudgeData>(queueName, (job, token) => runNudged(runner, job, token), {
        connection: redisOptions(this.redisUrl, 'retry for ever'),
        concurrency: 1,
        // A job whose worker is killed comes back so often; how often it may be started is counted in its row.
        maxStalledCount: 100,
      });
      this.worker.on('error', (error) => log.warn({ error }, 'the queue is away'));
      this.worker.on('failed', (job, error) => log.error({ error, jobId: job?.data.id }, 'a nudge failed'));
    }
    await this.sweep();
    this.sweepTimer = setInterval(() => {
      this.sweeping = this.sweep();
    }, sweepMillis);
  }

  nudge(jobId: string, dueAt: number): void {
    this.add(jobId, dueAt).catch((error: unknown) =>
      log.warn({ error, jobId }, 'a nudge was lost; the sweep finds it'),
    );
  }

  async close(): Promise<void> {
    if (this.sweepTimer) clearInterval(this.sweepTimer);
    await this.runner?.close();
    await this.sweeping;
    await this.worker?.close();
    await this.queue.close();
  }

  async check(): Promise<void> {
    await this.queue.getWaitingCount();
  }

  private async add(jobId: string, dueAt: number): Promise<void> {
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
        if (job.dueAt < now - overdueMillis) await this.queue.removeDeduplicationKey(job.id);
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
