import type { EntityManager } from 'typeorm';
import { newId } from '../ids/ids.js';
import { ComputeJob } from './compute-job.entity.js';
import { RunLostError } from './handler.js';

/** How long a run is believed to live after it last said so. */
export const leaseMillis = 30_000;
/** How soon a job is looked at again while another of its kind runs for the same yard. */
const turnMillis = 1_000;

/** A job that is now this run's; or when to look again; or nothing to do. */
export type Claim = { job: ComputeJob; runId: string } | { lookAgainAt: number } | null;

/**
 * Takes a job for a new run, if it is due and nobody else's. One yard has one run of a kind at a time.
 * @param maxTries how often it may be started
 */
export async function claim(
  manager: EntityManager,
  jobId: string,
  now: number,
  maxTries: (name: string) => number,
): Promise<Claim> {
  const job = await manager.findOneBy(ComputeJob, { id: jobId });
  if (!job || job.state === 'done' || job.state === 'failed') return null;
  if (job.state === 'running' && isAlive(job, now)) return { lookAgainAt: job.leaseUntil ?? now };
  if (job.state === 'waiting' && job.dueAt > now) return { lookAgainAt: job.dueAt };
  const siblings = { organisationId: job.organisationId, name: job.name };
  const running = await manager.findBy(ComputeJob, { ...siblings, state: 'running' });
  if (running.some((other) => other.id !== job.id && isAlive(other, now))) {
    return { lookAgainAt: now + turnMillis };
  }
  if (job.state === 'running') {
    const newer = await manager.existsBy(ComputeJob, { ...siblings, state: 'waiting' });
    if (newer) return close(manager, job, now, 'done', 'A newer request took its place.');
  }
  if (job.tries >= maxTries(job.name)) {
    return close(manager, job, now, 'failed', `It was started ${job.tries} times and never came to an end.`);
  }
  const runId = newId('run');
  const taken: Partial<ComputeJob> = {
    state: 'running',
    runId,
    tries: job.tries + 1,
    startedAt: now,
    leaseUntil: now + leaseMillis,
    progress: null,
    message: null,
  };
  await manager.save(ComputeJob, Object.assign(job, taken));
  return { job, runId };
}

function isAlive(job: ComputeJob, now: number): boolean {
  return job.leaseUntil !== null && job.leaseUntil > now;
}

async function close(
  manager: EntityManager,
  job: ComputeJob,
  now: number,
  state: 'done' | 'failed',
  message: string,
): Promise<null> {
  await manager.save(ComputeJob, Object.assign(job, { state, message, finishedAt: now, leaseUntil: null }));
  return null;
}

/** Changes the row if it is still this run's, in one statement. @throws RunLostError */
export async function changeOwn(
  manager: EntityManager,
  jobId: string,
  runId: string,
  change: Partial<ComputeJob>,
): Promise<void> {
  const { affected } = await manager
    .createQueryBuilder()
    .update(ComputeJob)
    .set(change)
    .where({ id: jobId, runId, state: 'running' })
    .execute();
  if (affected !== 1) throw new RunLostError();
}

/** Rows that are waiting and due by then, or whose run has fallen silent. */
export async function findDue(manager: EntityManager, now: number, dueBy: number): Promise<ComputeJob[]> {
  return manager
    .createQueryBuilder(ComputeJob, 'job')
    .where(`job.state = 'waiting' AND job.dueAt <= :dueBy`, { dueBy })
    .orWhere(`job.state = 'running' AND job.leaseUntil <= :now`, { now })
    .orderBy('job.askedAt')
    .take(1_000)
    .getMany();
}
