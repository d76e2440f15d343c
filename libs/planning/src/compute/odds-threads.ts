import type { Advice, Beliefs, Change, Forecast, Minute, Plan, Problem } from '@ribband/engine';
import { Injectable, type OnApplicationShutdown } from '@nestjs/common';
import { KeptThreads } from './kept-threads.js';

export interface OddsOrder {
  problem: Problem;
  plan: Pick<Plan, 'tasks'>;
  beliefs: Beliefs;
  seed: number;
  futures: number;
  /** The first minutes of the yard's weeks, where it matters which of them decide. */
  weeks?: readonly Minute[] | undefined;
  /** What to rank; null asks for a forecast. */
  candidates: Change[] | null;
  /** One number, 0 until the thread shall stop. */
  stop: SharedArrayBuffer;
}

/** A forecast, with the ready minute of each of its futures: others may be held against them one by one. */
export interface Futures {
  forecast: Forecast;
  ready: Int32Array;
}

export type OddsAnswer = ({ kind: 'forecast' } & Futures) | { kind: 'advice'; advice: Advice };

/** What is looked at: a plan of a problem, and what is not known for certain about it. */
export type Looked = Pick<OddsOrder, 'problem' | 'plan' | 'beliefs' | 'weeks'>;

/** Always the same, so that forecasts of different plans meet the same luck. */
const seed = 1;

/** Runs forecasts and advice in worker threads, as many as are asked for at once; one is kept for the next question. */
@Injectable()
export class OddsThreads implements OnApplicationShutdown {
  readonly #threads = new KeptThreads('odds-thread', 1);

  /** @throws when the thread breaks off */
  async forecast(looked: Looked, futures: number, signal?: AbortSignal): Promise<Forecast> {
    return (await this.futures(looked, futures, signal)).forecast;
  }

  /** @throws when the thread breaks off */
  async futures(looked: Looked, futures: number, signal?: AbortSignal): Promise<Futures> {
    const answer = await this.run({ ...looked, futures, candidates: null }, signal);
    if (answer.kind !== 'forecast') throw new Error('The thread answered another question');
    const { forecast, ready } = answer;
    return { forecast, ready };
  }

  /** @throws when the thread breaks off */
  async advise(looked: Looked, candidates: Change[], futures: number, signal?: AbortSignal): Promise<Advice> {
    const answer = await this.run({ ...looked, futures, candidates }, signal);
    if (answer.kind !== 'advice') throw new Error('The thread answered another question');
    return answer.advice;
  }

  onApplicationShutdown(): Promise<void> {
    return this.#threads.end();
  }

  private async run(order: Omit<OddsOrder, 'seed' | 'stop'>, signal?: AbortSignal): Promise<OddsAnswer> {
    const stop = new SharedArrayBuffer(4);
    const sayStop = () => {
      Atomics.store(new Int32Array(stop), 0, 1);
    };
    if (signal?.aborted) sayStop();
    else signal?.addEventListener('abort', sayStop, { once: true });
    try {
      return await this.#threads.lend(
        (worker) =>
          new Promise<OddsAnswer>((resolve, reject) => {
            worker.once('message', resolve);
            worker.once('error', reject);
            worker.once('exit', (code) => {
              reject(new Error(`The thread for odds ended with ${String(code)} before its answer`));
            });
            worker.postMessage({ ...order, seed, stop } satisfies OddsOrder);
          }),
      );
    } finally {
      signal?.removeEventListener('abort', sayStop);
    }
  }
}
