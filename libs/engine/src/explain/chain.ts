import type { Hold, Knot } from '../plan.js';
import type { Draft } from './draft.js';
import type { Holds } from './holds.js';

/**
 * The launch chain: from the task that ends last back through what holds each one where it is, be it a link, a
 * shared person or tool, or an opening, to the first cause. Earliest first.
 */
export function chainOf(draft: Draft, holds: Holds, heldBy: readonly Hold[]): Knot[] {
  const { problem, end, start } = draft;
  let i = -1;
  for (let k = 0; k < problem.tasks.length; k++) {
    if (i < 0 || end[k] > end[i] || (end[k] === end[i] && start[k] > start[i])) i = k;
  }
  const chain: Knot[] = [];
  const seen = new Set<number>();
  while (i >= 0 && !seen.has(i)) {
    seen.add(i);
    let hold = heldBy[i];
    const endLink = problem.tasks[i].progress.kind === 'done' ? -1 : holds.endLink(i);
    if (endLink >= 0) hold = { kind: 'link', link: endLink, task: problem.links[endLink].before };
    chain.push({ task: i, heldBy: hold });
    if (problem.tasks[i].progress.kind === 'done') break;
    const before = 'task' in hold ? hold.task : null;
    if (before !== null) i = before;
    else if (hold.kind === 'nothing' || hold.kind === 'not before' || hold.kind === 'posted') break;
    else {
      // The calendar, or a skill that nobody brings before: the chain goes on with what the task follows.
      const link = holds.driver(i);
      i = link >= 0 ? problem.links[link].before : -1;
    }
  }
  return chain.reverse();
}
