import type { LinkRecord, TaskRecord } from './yard-records.js';

/**
 * What has to be done for her to be ready: everything but the launch and what can only follow it, afloat.
 * Links to tasks outside go with them.
 */
export function readyScope<T extends Pick<TaskRecord, 'id' | 'kind'>>(
  tasks: readonly T[],
  links: readonly LinkRecord[],
): { tasks: T[]; links: LinkRecord[] } {
  const followers = new Map<string, string[]>();
  for (const link of links) {
    const known = followers.get(link.beforeId);
    if (known) known.push(link.afterId);
    else followers.set(link.beforeId, [link.afterId]);
  }
  const outside = new Set(tasks.filter((task) => task.kind === 'launch').map((task) => task.id));
  for (const id of outside) for (const follower of followers.get(id) ?? []) outside.add(follower);
  return {
    tasks: tasks.filter((task) => !outside.has(task.id)),
    links: links.filter((link) => !outside.has(link.beforeId) && !outside.has(link.afterId)),
  };
}
