import { Worker } from 'node:worker_threads';
import type { Forecast } from '@ribband/engine';
import type { ForecastOrder } from './forecast-order.js';

/**
 * Forecasts in a worker thread, which starts from the built file: a test runner does not transform what a thread loads.
 * @throws when the thread breaks off, or the signal's reason when it is told to stop
 */
export function runForecast(order: ForecastOrder, signal: AbortSignal): Promise<Forecast> {
  signal.throwIfAborted();
  const here = import.meta.url.replace('/planning/src/', '/planning/dist/');
  const thread = new Worker(new URL('./forecast-thread.js', here), { workerData: order });
  return new Promise<Forecast>((resolve, reject) => {
    const stop = () => {
      void thread.terminate();
      reject(signal.reason instanceof Error ? signal.reason : new Error(String(signal.reason)));
    };
    signal.addEventListener('abort', stop, { once: true });
    thread.once('message', resolve);
    thread.once('error', reject);
    thread.once('exit', (code) => {
      signal.removeEventListener('abort', stop);
      reject(new Error(`The forecast's thread ended with ${String(code)} before its answer`));
    });
  });
}
