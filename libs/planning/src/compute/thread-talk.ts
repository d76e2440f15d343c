import type { Outcome, Plan, Problem } from '@ribband/engine';

/** What the engine's thread is started with. */
export interface ThreadOrder {
  problem: Problem;
  seed: number;
  warm: Plan | null;
  /** Passes to spend; null: until the time is up or somebody says stop. */
  schedules: number | null;
  /** Steps of the branch search to spend; null: as the engine sees fit. */
  steps: number | null;
  /** Milliseconds to spend; null: no limit of time. */
  millis: number | null;
  /** One number, 0 until the thread shall stop. */
  stop: SharedArrayBuffer;
}

/** What the thread says while it searches, and at its end. */
export type ThreadWord =
  | { kind: 'at work'; schedules: number; ready: number | null; bound: number | null }
  | { kind: 'better'; plan: Plan }
  | { kind: 'end'; outcome: Outcome };
