import { MessageChannel, type Transferable, type Worker } from 'node:worker_threads';
import type { Outcome, Plan } from '@ribband/engine';
import { Inject, Injectable, type OnApplicationShutdown } from '@nestjs/common';
import type { PlanInput } from '../plans/plan-input.js';
import { KeptThreads } from './kept-threads.js';
import { PlanningSettings } from './settings.js';
import type { OtherThread, ThreadOrder, ThreadWord } from './thread-talk.js';

type AtWork = Extract<ThreadWord, { kind: 'at work' }>;

export interface EngineRun {
  /** Passes to spend, in one search, so that the same number gives the same plan; without it the time decides. */
  schedules?: number;
  /** Milliseconds to spend. */
  millis?: number;
  /** Tells the engine to come to its end with what it has. */
  signal?: AbortSignal;
  onWork?: (word: AtWork) => void;
  onBetter?: (plan: Plan) => void;
}

/** How long a thread that was told to stop may take to say its last word. */
const graceMillis = 10_000;

/**
 * Runs the engine in worker threads: one search, or two with different seeds that tell each other their best, the second
 * of which works on the bound first.
 */
@Injectable()
export class EngineThreads implements OnApplicationShutdown {
  readonly #threads: KeptThreads;

  constructor(@Inject(PlanningSettings) private readonly settings: PlanningSettings) {
    this.#threads = new KeptThreads('engine-thread', settings.threads);
  }

  /** @throws when a thread breaks off, or does not stop when told */
  async run(input: PlanInput, run: EngineRun = {}): Promise<Outcome> {
    const stop = new SharedArrayBuffer(4);
    const sayStop = () => {
      Atomics.store(new Int32Array(stop), 0, 1);
    };
    const order = (seed: number, other: OtherThread | null): ThreadOrder => ({
      problem: input.problem,
      seed,
      warm: input.warm,
      schedules: run.schedules ?? null,
      millis: run.millis ?? null,
      stop,
      other,
    });
    if (run.signal?.aborted) sayStop();
    else run.signal?.addEventListener('abort', sayStop, { once: true });
    try {
      if (!this.#takesTwo(input, run)) return await this.#search(order(input.seed, null), run);
      return await this.#searchTogether(order, input.seed, run, sayStop);
    } finally {
      run.signal?.removeEventListener('abort', sayStop);
    }
  }

  onApplicationShutdown(): Promise<void> {
    return this.#threads.end();
  }

  /** A yard of one turnout is searched through by one thread in another way. */
  #takesTwo({ problem }: PlanInput, { schedules }: EngineRun): boolean {
    return this.settings.threads > 1 && schedules === undefined && problem.turnouts.length > 1;
  }

  /** The first search leads: what the other one finds comes through it, and the end of one is the end of both. */
  async #searchTogether(
    order: (seed: number, other: OtherThread) => ThreadOrder,
    seed: number,
    run: EngineRun,
    sayStop: () => void,
  ): Promise<Outcome> {
    const { port1, port2 } = new MessageChannel();
    const spent = { leader: 0, helper: 0 };
    const onWork = (word: AtWork) => {
      spent.leader = word.schedules;
      run.onWork?.({ ...word, schedules: spent.leader + spent.helper });
    };
    const helper = this.#search(order(seed + 1, { port: port2, bounds: false }), {
      ...(run.signal ? { signal: run.signal } : {}),
      onWork: ({ schedules }) => (spent.helper = schedules),
    });
    const leader = this.#search(order(seed, { port: port1, bounds: true }), {
      ...run,
      onWork,
    }).finally(sayStop);
    // Whichever breaks off first, nobody waits for the other in vain.
    helper.catch(sayStop);
    const [outcome] = await Promise.all([leader, helper]);
    if (outcome.kind === 'plan') outcome.plan.schedules += spent.helper;
    return outcome;
  }

  #search(order: ThreadOrder, run: EngineRun): Promise<Outcome> {
    return this.#threads.lend((worker) => search(worker, order, run));
  }
}

/** One order, to its end. @throws when the thread breaks off, or does not stop when told */
function search(
  worker: Worker,
  order: ThreadOrder,
  { signal, onWork, onBetter }: EngineRun,
): Promise<Outcome> {
  return new Promise<Outcome>((resolve, reject) => {
    let grace: NodeJS.Timeout | undefined;
    const hurry = () => {
      grace = setTimeout(() => {
        reject(new Error('The engine did not stop when told'));
      }, graceMillis);
    };
    if (signal?.aborted) hurry();
    else signal?.addEventListener('abort', hurry, { once: true });
    const done = () => {
      clearTimeout(grace);
      signal?.removeEventListener('abort', hurry);
    };
    worker.on('message', (word: ThreadWord) => {
      if (word.kind === 'at work') onWork?.(word);
      else if (word.kind === 'better') onBetter?.(word.plan);
      else {
        done();
        resolve(word.outcome);
      }
    });
    worker.on('error', (error) => {
      done();
      reject(error);
    });
    worker.on('exit', (code) => {
      done();
      reject(new Error(`The engine's thread ended with ${String(code)} before its answer`));
    });
    const ports: Transferable[] = order.other ? [order.other.port] : [];
    worker.postMessage(order, ports);
  });
}
