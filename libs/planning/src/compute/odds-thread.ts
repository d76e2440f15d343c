import { parentPort } from 'node:worker_threads';
import { advise, forecast } from '@ribband/engine';
import type { OddsAnswer, OddsOrder } from './odds-threads.js';

/** Lives through futures in a thread of its own: one order after the other, an answer to each. */
parentPort?.on('message', (order: OddsOrder) => {
  parentPort?.postMessage(answerTo(order));
});

function answerTo(order: OddsOrder): OddsAnswer {
  const stopFlag = new Int32Array(order.stop);
  const { problem, plan, beliefs, seed, futures, weeks } = order;
  const options = { seed, futures, shouldStop: () => Atomics.load(stopFlag, 0) !== 0 };
  if (order.candidates === null) {
    const ready = new Int32Array(futures);
    const told = forecast(problem, plan, beliefs, { ...options, weeks, ready });
    return { kind: 'forecast', forecast: told, ready: ready.slice(0, told.futures) };
  }
  return { kind: 'advice', advice: advise(problem, plan, beliefs, order.candidates, options) };
}
