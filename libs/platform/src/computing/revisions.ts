import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { RealClock } from '../clock/real-clock.js';
import { Database } from '../database/database.js';
import { newId } from '../ids/ids.js';
import { ComputeJob } from './compute-job.entity.js';
import type { ComputeJobName } from './handler.js';
import { Nudges } from './nudges.js';
import { Revision } from './revision.entity.js';

/** After an edit the yard waits this long for the next one, so that ten edits in a row are computed once. */
const quietMillis = 400;
/** But not longer than this after the first of them. */
const longestWaitMillis = 5_000;

/** Keeps count of the changes that a plan depends on, and asks for a plan of the newest state. */
@Injectable()
export class Revisions {
  constructor(
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Nudges) private readonly nudges: Nudges,
  ) {}

  /** The yard's present revision; 0 before the first change. */
  async current(manager: EntityManager, organisationId: string): Promise<number> {
    return (await manager.findOneBy(Revision, { organisationId }))?.number ?? 0;
  }

  /**
   * Call it in every write that a plan depends on. Raises the yard's revision and sees to it that one waiting
   * computing job asks for a plan of it, in the same transaction as the change.
   * @param why what changed, in words
   * @param payload what the computation needs to know beside the records (see the handler)
   */
  async requestPlan(
    manager: EntityManager,
    organisationId: string,
    why: string,
    payload: Record<string, unknown> = {},
  ): Promise<ComputeJob> {
    const revision = (await this.current(manager, organisationId)) + 1;
    await manager.upsert(Revision, { organisationId, number: revision }, ['organisationId']);
    return this.ask(manager, { name: 'plan', organisationId, revision, why, payload });
  }

  /** Asks for a computation of the records as they stand, in the same transaction as the caller's change. */
  async request(
    manager: EntityManager,
    name: ComputeJobName,
    organisationId: string,
    why: string,
  ): Promise<ComputeJob> {
    const revision = await this.current(manager, organisationId);
    return this.ask(manager, { name, organisationId, revision, why, payload: {} });
  }

  /** Sees to it that one waiting job of this name asks for this revision. */
  private async ask(
    manager: EntityManager,
    wanted: Pick<ComputeJob, 'name' | 'organisationId' | 'revision' | 'why'> & {
      payload: Record<string, unknown>;
    },
  ): Promise<ComputeJob> {
    const now = this.clock.now();
    const waiting = await manager.findOneBy(ComputeJob, {
      organisationId: wanted.organisationId,
      name: wanted.name,
      state: 'waiting',
    });
    const job =
      waiting ??
      Object.assign(new ComputeJob(), {
        id: newId('compute'),
        state: 'waiting',
        askedAt: now,
        startedAt: null,
        finishedAt: null,
        tries: 0,
        runId: null,
        leaseUntil: null,
        progress: null,
        message: null,
        payload: {},
      } satisfies Partial<ComputeJob>);
    const payload = { ...(job.payload as Record<string, unknown>), ...wanted.payload };
    const dueAt = Math.min(now + quietMillis, job.askedAt + longestWaitMillis);
    // A job that waits for another try starts afresh: what made it fail may have been edited away.
    Object.assign(job, wanted, { payload, dueAt: Math.max(dueAt, now), tries: 0 });
    await manager.save(ComputeJob, job);
    Database.afterCommit(manager, () => {
      this.nudges.nudge(job.id, job.dueAt);
    });
    return job;
  }
}
