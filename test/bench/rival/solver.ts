import { Worker } from 'node:worker_threads';
import { threadSeconds, type Clock } from '../clock.js';

/** What a general constraint solver found in its time. */
export interface Found<T> {
  /** Values of the model's output, or null where no solution was found. */
  best: T | null;
  /** No better solution exists. */
  proved: boolean;
  /** Computing time from the end of translation on. */
  seconds: number;
}

/** The words of the package's thread that matter here. */
type Word =
  | { type: 'thread'; thread: string }
  | { type: 'ready' }
  | { type: 'statistics'; statistics: { flatTime?: number } }
  | { type: 'solution'; output: { json: unknown } }
  | { type: 'status'; status: string }
  | { type: 'error'; message: string }
  | { type: 'stderr' | 'stdout'; value: string }
  | { type: 'exit'; code: number; message?: string };

/** How often the time is looked at, in milliseconds. */
const LOOK = 20;

/**
 * A lazy-clause-generation solver (Chuffed) as WebAssembly, one thread, in computing time of that thread.
 *
 * Its time counts from the moment when the model is translated, so that what is measured is the search alone. The
 * thread is kept from one run to the next, since starting one costs a second; one that had to be cut off is replaced.
 */
export class Solver {
  #thread: Worker | null = null;
  #clock: Clock = () => 0;
  #hear: (word: Word) => void = () => undefined;
  #fail: (error: Error) => void = () => undefined;

  /** @throws Error where the model is not understood or the thread breaks off */
  async solve<T>(model: string, data: object, seconds: number): Promise<Found<T>> {
    const thread = await this.#ready();
    const clock = this.#clock;
    return new Promise<Found<T>>((resolve, reject) => {
      let begun: number | null = null;
      let best: T | null = null;
      let proved = false;
      let trouble: string | null = null;
      const spent = () => (begun === null ? 0 : clock() - begun);
      const end = () => {
        clearInterval(looking);
        this.#hear = () => undefined;
        const found = { best, proved, seconds: spent() };
        if (trouble === null) resolve(found);
        else reject(new Error(trouble));
      };
      const looking = setInterval(() => {
        if (spent() < seconds) return;
        end();
        void this.close();
      }, LOOK);
      this.#fail = (error) => {
        trouble = error.message;
        end();
        void this.close();
      };
      this.#hear = (word) => {
        if (word.type === 'statistics' && word.statistics.flatTime !== undefined) begun ??= clock();
        else if (word.type === 'solution') best = word.output.json as T;
        else if (word.type === 'status') proved = word.status === 'OPTIMAL_SOLUTION';
        else if (word.type === 'error') trouble = word.message;
        else if (word.type === 'exit') {
          if (word.code !== 0) trouble ??= word.message ?? `ended with ${word.code}`;
          end();
        }
      };
      thread.postMessage({
        jsonStream: true,
        files: { 'model.mzn': model, 'data.json': JSON.stringify(data) },
        args: [
          '-i',
          '-f',
          '-s',
          '--output-mode',
          'json',
          '--solver',
          'org.minizinc.chuffed',
          'model.mzn',
          'data.json',
        ],
      });
    });
  }

  async close(): Promise<void> {
    const thread = this.#thread;
    this.#thread = null;
    await thread?.terminate();
  }

  async #ready(): Promise<Worker> {
    if (this.#thread) return this.#thread;
    const thread = new Worker(new URL('./solver-thread.js', import.meta.url));
    this.#thread = thread;
    await new Promise<void>((resolve, reject) => {
      this.#fail = reject;
      this.#hear = (word) => {
        if (word.type === 'thread') this.#clock = threadSeconds(word.thread);
        else if (word.type === 'ready') resolve();
      };
      thread.on('error', (error) => {
        this.#fail(error);
      });
      thread.on('message', (word: Word) => {
        this.#hear(word);
      });
      // Only names: the thread looks for them in the package's folder.
      const at = 'http://localhost/';
      thread.postMessage({ wasmURL: `${at}minizinc.wasm`, dataURL: `${at}minizinc.data` });
    });
    return thread;
  }
}
