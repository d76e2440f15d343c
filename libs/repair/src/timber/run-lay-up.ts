import { Worker } from 'node:worker_threads';
import type { LayUp } from '@ribband/hull';
import type { LayUpOrder } from './lay-up-order.js';

/**
 * Lays up in a worker thread, which starts from the built file: a test runner does not transform what a thread loads.
 * @throws when the thread breaks off, or the signal's reason when it is told to stop
 */
export function runLayUp(order: LayUpOrder, signal: AbortSignal): Promise<LayUp> {
  signal.throwIfAborted();
  const here = import.meta.url.replace('/repair/src/', '/repair/dist/');
  const thread = new Worker(new URL('./lay-up-thread.js', here), { workerData: order });
  return new Promise<LayUp>((resolve, reject) => {
    const stop = () => {
      void thread.terminate();
      reject(signal.reason instanceof Error ? signal.reason : new Error(String(signal.reason)));
    };
    signal.addEventListener('abort', stop, { once: true });
    thread.once('message', resolve);
    thread.once('error', reject);
    thread.once('exit', (code) => {
      signal.removeEventListener('abort', stop);
      reject(new Error(`The lay-up's thread ended with ${code} before its answer`));
    });
  });
}
