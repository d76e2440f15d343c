import { parentPort, workerData } from 'node:worker_threads';
import { forecast } from '@ribband/engine';
import type { ForecastOrder } from './forecast-order.js';

/** Lives through the futures of a plan in a thread of its own. */
const { problem, tasks, beliefs, seed, futures } = workerData as ForecastOrder;
parentPort?.postMessage(forecast(problem, { tasks }, beliefs, { seed, futures }));
