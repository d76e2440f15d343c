import type { RealClock } from '../clock/real-clock.js';
import type { Database } from '../database/database.js';
import { log } from '../log/log.js';
import { findDue } from './claims.js';
import { Nudges } from './nudges.js';
import type { ComputeRunner } from './runner.js';

const sweepMillis = 2_000;

/** Runs jobs in this process, one after the other, without a queue. */
export class LocalNudges extends Nudges {
  private readonly timers = new Map<string, NodeJS.Timeout>();
  private readonly due: string[] = [];
  private running: Promise<void> | null = null;
  private sweeping: Promise<void> = Promise.resolve();
  private sweepTimer: NodeJS.Timeout | null = null;
  private isClosed = false;

  constructor(
    private readonly database: Database,
    private readonly clock: RealClock,
    private readonly runner: ComputeRunner,
  ) {
    super();
  }

  async start(): Promise<void> {
    await this.sweep();
    this.sweepTimer = setInterval(() => {
      this.sweeping = this.sweep();
    }, sweepMillis);
  }

  nudge(jobId: string, dueAt: number): void {
    if (this.isClosed) return;
    clearTimeout(this.timers.get(jobId));
    const wait = Math.max(0, dueAt - this.clock.now());
    this.timers.set(
      jobId,
      setTimeout(() => {
        this.timers.delete(jobId);
        if (!this.due.includes(jobId)) this.due.push(jobId);
        this.running ??= this.runAll().finally(() => (this.running = null));
      }, wait),
    );
  }

  async close(): Promise<void> {
    this.isClosed = true;
    if (this.sweepTimer) clearInterval(this.sweepTimer);
    for (const timer of this.timers.values()) clearTimeout(timer);
    this.due.length = 0;
    await this.runner.close();
    await this.running;
    await this.sweeping;
  }

  check(): Promise<void> {
    return Promise.resolve();
  }

  private async runAll(): Promise<void> {
    for (let jobId = this.due.shift(); jobId !== undefined; jobId = this.due.shift()) {
      try {
        const lookAgainAt = await this.runner.run(jobId);
        if (lookAgainAt !== null) this.nudge(jobId, lookAgainAt);
      } catch (error) {
        // The row is as it was; the next sweep finds it again.
        log.error({ error, jobId }, 'a computing job could not be run');
      }
    }
  }

  private async sweep(): Promise<void> {
    try {
      const now = this.clock.now();
      for (const job of await findDue(this.database.read, now, now + sweepMillis)) {
        if (!this.timers.has(job.id)) this.nudge(job.id, job.dueAt);
      }
    } catch (error) {
      log.warn({ error }, 'could not look for computing jobs');
    }
  }
}
