import { SetMetadata } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import type { ZodType } from 'zod';

/** What a computing job was asked for. */
export interface ComputeTask<Payload = unknown> {
  id: string;
  organisationId: string;
  /** The state of the records that it was asked for; a newer one may be there by the time it reads them. */
  revision: number;
  payload: Payload;
}

/**
 * Why a run should come to its end: a newer state of the records waits to be computed, the process is going down,
 * or the job has been given to another run.
 */
export type StopReason = 'newer request' | 'shutting down' | 'lost';

/** What a run can do beside computing. */
export interface ComputeControl {
  /** Shows progress; plain JSON. Cheap: it is told at once and written down now and then. */
  report(progress: unknown): void;
  /** Whether to come to an end soon, with what there is (publish it) or with nothing (throw `Stopped`). */
  shouldStop(): boolean;
  /** Aborted, with a StopReason as its reason, as soon as `shouldStop` turns true. */
  readonly signal: AbortSignal;
  /**
   * One transaction for the result, kept only if the job is still this run's: one that was taken for dead and
   * wakes up cannot write over what another made. @throws RunLostError
   */
  publish<T>(work: (manager: EntityManager) => Promise<T>): Promise<T>;
}

/** Computes one kind of job. Long computations belong in worker threads, so that the run can say that it lives. */
export interface ComputeHandler<Payload = unknown> {
  readonly payload: ZodType<Payload>;
  /** How often it may be started before it counts as failed. */
  readonly tries: number;
  /** The answer to "what if it runs twice?", for whoever reads the code. */
  readonly runTwice: string;
  run(task: ComputeTask<Payload>, control: ComputeControl): Promise<void>;
}

/** The names of all computing jobs. Each needs exactly one handler in the process that computes. */
export const computeJobNames = ['plan', 'lay-up', 'forecast', 'advice', 'what-if', 'care-odds'] as const;
export type ComputeJobName = (typeof computeJobNames)[number];

export const computeJobKey = 'ribband:compute-job';

/** Marks a provider as the handler of a computing job. */
export function ComputeJobHandler(name: ComputeJobName): ClassDecorator {
  return SetMetadata(computeJobKey, name);
}

/** Thrown by a handler that was told to stop and has nothing to show. */
export class Stopped extends Error {
  constructor() {
    super('Stopped on request');
    this.name = 'Stopped';
  }
}

/** Thrown by a handler when another try would end the same way; the message is shown to people. */
export class GiveUp extends Error {
  constructor(message: string) {
    super(message);
    this.name = 'GiveUp';
  }
}

/** The job belongs to another run by now; nothing of this one was kept. */
export class RunLostError extends Error {
  constructor() {
    super('This run has lost its job to another');
    this.name = 'RunLostError';
  }
}
