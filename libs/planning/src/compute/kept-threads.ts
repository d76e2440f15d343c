import { Worker } from 'node:worker_threads';
import { log } from '@ribband/platform';

/** A thread without work is kept for so long: the next answer comes sooner from one that has given some. */
const idleMillis = 10 * 60_000;

/** Worker threads that run one file of this folder, each with one order at a time. */
export class KeptThreads {
  readonly #idle = new Map<Worker, NodeJS.Timeout>();
  readonly #busy = new Set<Worker>();

  /**
   * @param name of the file, without its ending
   * @param most threads that are kept without work
   */
  constructor(
    private readonly name: string,
    private readonly most: number,
  ) {}

  /** Lends a thread for one order. It ends if the order breaks off: nobody knows then what it is at. */
  async lend<T>(work: (worker: Worker) => Promise<T>): Promise<T> {
    const worker = this.#take();
    this.#busy.add(worker);
    let isSound = false;
    try {
      const result = await work(worker);
      isSound = true;
      return result;
    } finally {
      this.#busy.delete(worker);
      deafen(worker);
      if (isSound && this.#idle.size < this.most) this.#keep(worker);
      else await worker.terminate();
    }
  }

  /** Ends them all; an order that is not done breaks off. */
  async end(): Promise<void> {
    for (const resting of this.#idle.values()) clearTimeout(resting);
    const all = [...this.#idle.keys(), ...this.#busy];
    this.#idle.clear();
    await Promise.all(all.map((worker) => worker.terminate()));
  }

  #take(): Worker {
    for (const [worker, resting] of this.#idle) {
      clearTimeout(resting);
      this.#idle.delete(worker);
      deafen(worker);
      worker.ref();
      return worker;
    }
    // From the built file: a test runner does not transform what a thread loads.
    const here = import.meta.url.replace('/planning/src/', '/planning/dist/');
    return new Worker(new URL(`./${this.name}.js`, here));
  }

  /** It waits for more work without keeping the process alive, and ends when none comes. */
  #keep(worker: Worker): void {
    worker.once('error', (error) => {
      log.error({ error, thread: this.name }, 'a thread broke off while it had no work');
    });
    worker.once('exit', () => {
      clearTimeout(this.#idle.get(worker));
      this.#idle.delete(worker);
    });
    worker.unref();
    const end = () => {
      this.#idle.delete(worker);
      void worker.terminate();
    };
    this.#idle.set(worker, setTimeout(end, idleMillis).unref());
  }
}

/** Event by event: with all at once, Node's own listener goes too, without which no message comes again. */
function deafen(worker: Worker): void {
  for (const event of ['message', 'error', 'exit']) worker.removeAllListeners(event);
}
