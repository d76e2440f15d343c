import { Inject, Injectable } from '@nestjs/common';
import { Bus } from '../bus/bus.js';
import { RealClock } from '../clock/real-clock.js';
import { Database } from '../database/database.js';
import { newId } from '../ids/ids.js';
import { log } from '../log/log.js';
import { changeOwn, claim, leaseMillis } from './claims.js';
import { ComputeJob } from './compute-job.entity.js';
import {
  type ComputeControl,
  type ComputeHandler,
  GiveUp,
  RunLostError,
  Stopped,
  type StopReason,
} from './handler.js';
import { ComputeHandlers } from './handlers.js';

/** How often a run says that it lives, writes its progress down and looks for a newer request. */
const heartbeatMillis = 2_000;
const longestBackOffMillis = 60_000;

/** The topic on which a yard's computing jobs are told about; the payload is `ComputeNews`. */
export function computeTopic(organisationId: string): string {
  return `computing:${organisationId}`;
}

/** Where a computing job stands. */
export interface ComputeNews {
  jobId: string;
  state: ComputeJob['state'];
  revision: number;
  progress: unknown;
}

/** Runs computing jobs: the one path on which they are run, whoever nudges. */
@Injectable()
export class ComputeRunner {
  private readonly current = new Set<{ stop: (reason: StopReason) => void; ended: Promise<unknown> }>();
  private isClosing = false;

  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(ComputeHandlers) private readonly handlers: ComputeHandlers,
  ) {}

  /**
   * Runs a job to its end, if it is due and nobody else runs it.
   * @returns when to look at it again (epoch milliseconds), or null when there is nothing more to do
   */
  async run(jobId: string): Promise<number | null> {
    if (this.isClosing) return null;
    const claimed = await this.database.write((manager) =>
      claim(manager, jobId, this.clock.now(), (name) => this.handlers.get(name)?.tries ?? 0),
    );
    if (claimed === null) return null;
    if ('lookAgainAt' in claimed) return claimed.lookAgainAt;
    const handler = this.handlers.get(claimed.job.name);
    if (!handler) throw new Error(`No handler for the computing job ${claimed.job.name}`);
    const stopping = new AbortController();
    const ended = this.runClaimed(claimed.job, claimed.runId, handler, stopping);
    const entry = {
      stop: (reason: StopReason) => {
        stopping.abort(reason);
      },
      ended,
    };
    this.current.add(entry);
    try {
      return await ended;
    } finally {
      this.current.delete(entry);
    }
  }

  /** Takes no more jobs, tells the running ones to stop and waits for them. */
  async close(): Promise<void> {
    this.isClosing = true;
    for (const run of this.current) run.stop('shutting down');
    await Promise.allSettled([...this.current].map((run) => run.ended));
  }

  private async runClaimed(
    job: ComputeJob,
    runId: string,
    handler: ComputeHandler,
    stopping: AbortController,
  ): Promise<number | null> {
    let progress: unknown = null;
    const tell = (state: ComputeJob['state']): void => {
      this.bus.publish(computeTopic(job.organisationId), {
        jobId: job.id,
        state,
        revision: job.revision,
        progress,
      } satisfies ComputeNews);
    };
    const own = (change: Partial<ComputeJob>): Promise<void> =>
      this.database.write((manager) => changeOwn(manager, job.id, runId, change));
    const control: ComputeControl = {
      report: (now) => {
        progress = now;
        tell('running');
      },
      shouldStop: () => stopping.signal.aborted,
      signal: stopping.signal,
      publish: (work) =>
        this.database.write(async (manager) => {
          // Asking first also locks the row, so that no other run can take it before the commit.
          await changeOwn(manager, job.id, runId, { leaseUntil: this.clock.now() + leaseMillis });
          return work(manager);
        }),
    };
    if (this.isClosing) stopping.abort('shutting down' satisfies StopReason);
    tell('running');
    const heart = this.keepAlive(job, runId, stopping, () => progress);
    try {
      const payload = handler.payload.parse(job.payload);
      const { id, organisationId, revision } = job;
      await handler.run({ id, organisationId, revision, payload }, control);
      await heart.stop();
      await own({ state: 'done', finishedAt: this.clock.now(), leaseUntil: null, progress });
      tell('done');
      return null;
    } catch (error) {
      await heart.stop();
      return await this.afterTrouble(job, handler, stopping.signal, error, own, tell);
    }
  }

  /** @returns when the job shall be looked at again */
  private async afterTrouble(
    job: ComputeJob,
    handler: ComputeHandler,
    signal: AbortSignal,
    error: unknown,
    own: (change: Partial<ComputeJob>) => Promise<void>,
    tell: (state: ComputeJob['state']) => void,
  ): Promise<number | null> {
    const now = this.clock.now();
    const settle = async (change: Partial<ComputeJob> & Pick<ComputeJob, 'state'>): Promise<void> => {
      try {
        await own({ finishedAt: change.state === 'waiting' ? null : now, leaseUntil: null, ...change });
        tell(change.state);
      } catch (second) {
        if (!(second instanceof RunLostError)) throw second;
        log.info({ jobId: job.id }, 'a run that had lost its job has ended');
      }
    };
    if (error instanceof RunLostError) {
      log.info({ jobId: job.id }, 'a run that had lost its job has ended');
      return null;
    }
    if (error instanceof Stopped && signal.reason === 'newer request') {
      await settle({ state: 'done', message: 'A newer request took its place.' });
      return null;
    }
    if (error instanceof Stopped && signal.reason === 'shutting down') {
      // The next process takes it up; this start does not count.
      await settle({ state: 'waiting', tries: job.tries - 1, dueAt: now });
      return null;
    }
    if (error instanceof GiveUp) {
      await settle({ state: 'failed', message: error.message });
      return null;
    }
    const faultId = newId('fault');
    log.error({ error, faultId, jobId: job.id, tries: job.tries }, 'a computing job broke off');
    const message = `The computation broke off; the server's log has it under ${faultId}.`;
    if (job.tries >= handler.tries) {
      await settle({ state: 'failed', message });
      return null;
    }
    const dueAt = now + Math.min(1_000 * 4 ** (job.tries - 1), longestBackOffMillis);
    await settle({ state: 'waiting', dueAt, message });
    return dueAt;
  }

  private keepAlive(
    job: ComputeJob,
    runId: string,
    stopping: AbortController,
    progress: () => unknown,
  ): { stop: () => Promise<void> } {
    let beating: Promise<void> = Promise.resolve();
    const beat = async (): Promise<void> => {
      try {
        await this.database.write((manager) =>
          changeOwn(manager, job.id, runId, {
            leaseUntil: this.clock.now() + leaseMillis,
            progress: progress(),
          }),
        );
        const newer = await this.database.read.existsBy(ComputeJob, {
          organisationId: job.organisationId,
          name: job.name,
          state: 'waiting',
        });
        if (newer) stopping.abort('newer request' satisfies StopReason);
      } catch (error) {
        if (error instanceof RunLostError) stopping.abort('lost' satisfies StopReason);
        else log.warn({ error, jobId: job.id }, 'a run could not say that it lives');
      }
    };
    const timer = setInterval(() => {
      beating = beating.then(beat);
    }, heartbeatMillis);
    return {
      async stop() {
        clearInterval(timer);
        await beating;
      },
    };
  }
}
