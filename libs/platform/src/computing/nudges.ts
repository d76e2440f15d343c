/**
 * Told that a computing job is there to be run. A nudge may get lost: the rows are read again at the start and
 * every so often.
 */
export abstract class Nudges {
  /** @param dueAt epoch milliseconds before which the job shall not start */
  abstract nudge(jobId: string, dueAt: number): void;

  /** Begins to see to jobs. */
  abstract start(): Promise<void>;

  /** Comes to an end; jobs that are running are told to stop. */
  abstract close(): Promise<void>;

  /** @throws when a queue is set up and does not answer */
  abstract check(): Promise<void>;
}

/** For a process that only asks and has no queue: the process that computes finds the rows by itself. */
export class NoNudges extends Nudges {
  nudge(): void {
    // The row is enough.
  }
  start(): Promise<void> {
    return Promise.resolve();
  }
  close(): Promise<void> {
    return Promise.resolve();
  }
  check(): Promise<void> {
    return Promise.resolve();
  }
}
