import { parentPort, workerData } from 'node:worker_threads';
import { solve } from '@ribband/engine';
import type { ThreadOrder, ThreadWord } from './thread-talk.js';

/** The engine in a thread of its own: it says how far it is, hands over better plans, and looks whether to stop. */
const { problem, seed, warm, schedules, steps, millis, stop } = workerData as ThreadOrder;
const stopFlag = new Int32Array(stop);
const endsAt = millis === null ? Infinity : Date.now() + millis;
const betweenWords = 150;
let saidAt = 0;
let passes = 0;
let ready: number | null = null;
let bound: number | null = null;

const say = (word: ThreadWord): void => {
  parentPort?.postMessage(word);
};

const outcome = solve(problem, {
  seed,
  ...(warm ? { warm } : {}),
  ...(schedules === null ? {} : { schedules }),
  ...(steps === null ? {} : { steps }),
  shouldStop() {
    passes += 1;
    const now = Date.now();
    if (now - saidAt > betweenWords) {
      saidAt = now;
      say({ kind: 'at work', schedules: passes, ready, bound });
    }
    return now > endsAt || Atomics.load(stopFlag, 0) !== 0;
  },
  onBetter(plan, progress) {
    ({ ready, bound } = progress);
    passes = progress.schedules;
    say({ kind: 'better', plan });
  },
});
say({ kind: 'end', outcome });
