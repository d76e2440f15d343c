import type { MessagePort } from 'node:worker_threads';
import type { Bound, Outcome, Plan, Problem } from '@ribband/engine';

/** What a thread is given to work on. */
export interface ThreadOrder {
  problem: Problem;
  seed: number;
  warm: Plan | null;
  /** Passes to spend; null: until the time is up or somebody says stop. */
  schedules: number | null;
  /** Milliseconds to spend; null: no limit of time. */
  millis: number | null;
  /** One number, 0 until the thread shall stop. */
  stop: SharedArrayBuffer;
  /** The thread that searches beside this one, or null. */
  other: OtherThread | null;
}

export interface OtherThread {
  /** Leads to the other thread and carries `ThreadNews`. */
  port: MessagePort;
  /** Whether the other one works on the bound. */
  bounds: boolean;
}

/** What two threads that search the same problem tell each other. */
export type ThreadNews =
  { kind: 'drawn'; list: Int32Array; hands: Uint8Array } | { kind: 'bound'; bound: Bound };

/** What a thread says while it searches, and at its end. */
export type ThreadWord =
  | { kind: 'at work'; schedules: number; ready: number; bound: number }
  | { kind: 'better'; plan: Plan }
  | { kind: 'end'; outcome: Outcome };
