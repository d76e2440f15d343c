import { parentPort, workerData } from 'node:worker_threads';
import { layUp } from '@ribband/hull';
import { joined, type LayUpOrder } from './lay-up-order.js';

/** Lays patterns up on stock in a thread of its own: frames on frame stock, planks on planking. */
const { tables } = workerData as LayUpOrder;
parentPort?.postMessage(joined(tables.map((wish) => layUp(wish))));
