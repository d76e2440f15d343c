import { Mutex } from 'async-mutex';

/** Lets one piece of work through at a time, in the order in which they came. */
export class WriteGate {
  private readonly mutex = new Mutex();

  pass<T>(work: () => Promise<T>): Promise<T> {
    return this.mutex.runExclusive(work);
  }
}
