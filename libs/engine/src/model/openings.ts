import { EVER } from '../calendar.js';
import type { Minute, Problem } from '../problem.js';
import { Kind } from './kind.js';

export interface Openings {
  /** Limits that can bind at all. `from` is EVER where one is in force already. */
  limits: { index: number; elements: number[]; atMost: number; from: Minute }[];
  /** By element: the task, or -1. */
  opener: Int32Array;
  closer: Int32Array;
  /** By task: elements in some binding limit. */
  opens: number[][];
  closes: number[][];
}

export function openingsOf(problem: Problem, mirrored: boolean): Openings {
  const opener = new Int32Array(problem.elements.length).fill(-1);
  const closer = new Int32Array(problem.elements.length).fill(-1);
  problem.tasks.forEach((task, i) => {
    for (const e of mirrored ? task.closes : task.opens) opener[e] = i;
    for (const e of mirrored ? task.opens : task.closes) closer[e] = i;
  });
  const limits = problem.openingLimits
    .map(({ elements, atMost, from = EVER }, index) => {
      return { index, elements: [...new Set(elements)], atMost, from: from > problem.now ? from : EVER };
    })
    .filter(
      ({ elements, atMost, from }) =>
        elements.filter((e) => opener[e] >= 0 || closer[e] >= 0).length > atMost &&
        // Drawn backward a plan only lends its order; what it may open sooner is asked when it is drawn forward.
        !(mirrored && from > EVER),
    );
  const bound = new Set(limits.flatMap((limit) => limit.elements));
  const opens: number[][] = problem.tasks.map(() => []);
  const closes: number[][] = problem.tasks.map(() => []);
  for (const e of bound) {
    if (opener[e] >= 0) opens[opener[e]].push(e);
    if (closer[e] >= 0) closes[closer[e]].push(e);
  }
  return { limits, opener, closer, opens, closes };
}

/** What a task without length both opens and shuts is never open, unless it has begun and waits for its end. */
export function forgetShutAtOnce(openings: Openings, kind: Uint8Array, begun: Int32Array): void {
  const { opener, closer, opens, closes } = openings;
  for (let i = 0; i < kind.length; i++) {
    if ((kind[i] !== Kind.Mark && kind[i] !== Kind.SaySo) || begun[i] > EVER) continue;
    const never = opens[i].filter((e) => closer[e] === i);
    if (never.length === 0) continue;
    for (const e of never) opener[e] = closer[e] = -1;
    opens[i] = opens[i].filter((e) => !never.includes(e));
    closes[i] = closes[i].filter((e) => !never.includes(e));
  }
}
