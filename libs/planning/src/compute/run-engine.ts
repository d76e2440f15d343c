import { Worker } from 'node:worker_threads';
import type { Outcome, Plan } from '@ribband/engine';
import type { PlanInput } from '../plans/plan-input.js';
import type { ThreadOrder, ThreadWord } from './thread-talk.js';

export interface EngineRun {
  /** Passes to spend; without it the time decides. */
  schedules?: number;
  /** Steps of the branch search to spend. */
  steps?: number;
  /** Milliseconds to spend. */
  millis?: number;
  /** Tells the engine to come to its end with what it has. */
  signal?: AbortSignal;
  onWork?: (word: Extract<ThreadWord, { kind: 'at work' }>) => void;
  onBetter?: (plan: Plan) => void;
}

/** How long a thread that was told to stop may take to say its last word. */
const graceMillis = 10_000;

/**
 * Runs the engine in a worker thread. The thread starts from the built file: a test runner does not transform what a
 * thread loads.
 * @throws when the thread breaks off, or does not stop when told
 */
export function runEngine(input: PlanInput, run: EngineRun = {}): Promise<Outcome> {
  const stop = new SharedArrayBuffer(4);
  const order: ThreadOrder = {
    problem: input.problem,
    seed: input.seed,
    warm: input.warm,
    schedules: run.schedules ?? null,
    steps: run.steps ?? null,
    millis: run.millis ?? null,
    stop,
  };
  return new Promise<Outcome>((resolve, reject) => {
    const thread = new Worker(builtFile(), { workerData: order });
    let grace: NodeJS.Timeout | undefined;
    const sayStop = () => {
      Atomics.store(new Int32Array(stop), 0, 1);
      grace = setTimeout(() => {
        void thread.terminate();
        reject(new Error('The engine did not stop when told'));
      }, graceMillis);
    };
    const done = () => {
      clearTimeout(grace);
      run.signal?.removeEventListener('abort', sayStop);
    };
    if (run.signal?.aborted) sayStop();
    else run.signal?.addEventListener('abort', sayStop, { once: true });
    thread.on('message', (word: ThreadWord) => {
      if (word.kind === 'at work') run.onWork?.(word);
      else if (word.kind === 'better') run.onBetter?.(word.plan);
      else resolve(word.outcome);
    });
    thread.on('error', (error) => {
      done();
      reject(error);
    });
    thread.on('exit', (code) => {
      done();
      reject(new Error(`The engine's thread ended with ${String(code)} before its answer`));
    });
  });
}

function builtFile(): URL {
  const here = import.meta.url.replace('/planning/src/', '/planning/dist/');
  return new URL('./engine-thread.js', here);
}
