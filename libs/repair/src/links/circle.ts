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

/** The tasks of one circle among these links, or null. Cost: one walk over the links where there is none. */
export function anyCircle(links: readonly Arrow[]): string[] | null {
  const waits = new Map<string, number>();
  const followers = new Map<string, string[]>();
  for (const { before, after } of links) {
    waits.set(after, (waits.get(after) ?? 0) + 1);
    followers.set(before, [...(followers.get(before) ?? []), after]);
  }
  const free = [...followers.keys()].filter((task) => !waits.has(task));
  for (const task of free)
    for (const next of followers.get(task) ?? []) {
      const left = (waits.get(next) ?? 0) - 1;
      waits.set(next, left);
      if (left === 0) free.push(next);
    }
  const done = new Set(free);
  const stuck = links.filter(({ before, after }) => !done.has(before) && !done.has(after));
  for (const [at, link] of stuck.entries()) {
    const circle = circleWith(stuck.slice(0, at), link);
    if (circle) return circle;
  }
  return null;
}

function pathTo(end: string, cameFrom: ReadonlyMap<string, string | null>): string[] {
  const path: string[] = [];
  for (let at: string | null = end; at !== null; at = cameFrom.get(at) ?? null) path.unshift(at);
  return path;
}
