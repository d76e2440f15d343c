/** Told that a computing job is there to be run; may lose it, since the rows are read again every so often. */
export abstract class Nudges {
  /** @param dueAt epoch milliseconds before which the job shall not start */
  abstract nudge(jobId: string, dueAt: number): void;
}

/** For processes that only ask: the process that computes finds the rows by itself. */
export class NoNudges extends Nudges {
  nudge(): void {
    // The sweep of the computing process finds the row.
  }
}
