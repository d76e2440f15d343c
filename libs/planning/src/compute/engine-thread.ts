import { type MessagePort, parentPort, receiveMessageOnPort } from 'node:worker_threads';
import { type OtherSearch, scarcestSkills, solve } from '@ribband/engine';
import type { OtherThread, ThreadNews, ThreadOrder, ThreadWord } from './thread-talk.js';

/*
 * The engine in a thread of its own. It takes one order after the other, says how far it is, hands over better plans,
 * and looks whether to stop; beside it another thread may search the same problem.
 */

const betweenWords = 150;
const betweenPlans = 1_000;

parentPort?.on('message', (order: ThreadOrder) => {
  work(order);
  order.other?.port.close();
});

function work({ problem, seed, warm, schedules, millis, stop, other }: ThreadOrder): void {
  const stopFlag = new Int32Array(stop);
  const endsAt = millis === null ? Infinity : Date.now() + millis;
  let saidAt = 0;
  let toldAt = -Infinity;
  const outcome = solve(problem, {
    seed,
    ...(warm ? { warm } : {}),
    ...(schedules === null ? {} : { schedules }),
    ...(other ? { other: otherSearch(other) } : {}),
    shouldStop({ schedules: passes, ready, bound }) {
      const now = Date.now();
      if (now - saidAt > betweenWords) {
        saidAt = now;
        say({ kind: 'at work', schedules: passes, ready, bound });
      }
      return now > endsAt || Atomics.load(stopFlag, 0) !== 0;
    },
    isListening: () => Date.now() - toldAt >= betweenPlans,
    onBetter(plan) {
      toldAt = Date.now();
      say({ kind: 'better', plan });
    },
  });
  if (outcome.kind === 'plan' && other?.bounds !== false)
    outcome.plan.scarcest = scarcestSkills(problem, outcome.plan.ready);
  say({ kind: 'end', outcome });
}

function say(word: ThreadWord): void {
  parentPort?.postMessage(word);
}

function otherSearch({ port, bounds }: OtherThread): OtherSearch {
  const tell = (news: ThreadNews) => {
    port.postMessage(news);
  };
  return {
    bounds,
    news() {
      const newest: ReturnType<OtherSearch['news']> = { drawn: null, bound: null };
      for (let news = received(port); news; news = received(port)) {
        if (news.kind === 'bound') newest.bound = news.bound;
        else newest.drawn = news;
      }
      return newest;
    },
    better: ({ list, hands }) => {
      tell({ kind: 'drawn', list, hands });
    },
    bound: (bound) => {
      tell({ kind: 'bound', bound });
    },
  };
}

/** Taken from the port at once: while it searches, a thread comes to no event. */
function received(port: MessagePort): ThreadNews | null {
  return (receiveMessageOnPort(port)?.message as ThreadNews | undefined) ?? null;
}
