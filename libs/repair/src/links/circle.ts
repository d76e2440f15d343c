/** A link as far as circles go: whichever ends it ties, one task waits for the other. */
export interface Arrow {
  before: string;
  after: string;
}

/**
 * The tasks of a circle that a new link would close, in the order in which each waits for the one before it,
 * beginning with the new link's `after`; null when it closes none. Breadth first, so the circle is a shortest one.
 * Cost: one walk over the links.
 */
export function circleWith(links: readonly Arrow[], added: Arrow): string[] | null {
  if (added.before === added.after) return [added.after];
  const followers = new Map<string, string[]>();
  for (const link of links) {
    const known = followers.get(link.before);
    if (known) known.push(link.after);
    else followers.set(link.before, [link.after]);
  }
  const cameFrom = new Map<string, string | null>([[added.after, null]]);
  const queue = [added.after];
  for (const task of queue) {
    if (task === added.before) return pathTo(task, cameFrom);
    for (const next of followers.get(task) ?? [])
      if (!cameFrom.has(next)) {
        cameFrom.set(next, task);
        queue.push(next);
      }
  }
  return null;
}

function pathTo(end: string, cameFrom: ReadonlyMap<string, string | null>): string[] {
  const path: string[] = [];
  for (let at: string | null = end; at !== null; at = cameFrom.get(at) ?? null) path.unshift(at);
  return path;
}
