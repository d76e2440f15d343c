/** Rows by the task that they belong to, in their order; none for a task without. */
export function byTask<T extends { taskId: string }>(rows: readonly T[]): (taskId: string) => T[] {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const group = groups.get(row.taskId);
    if (group) group.push(row);
    else groups.set(row.taskId, [row]);
  }
  return (taskId) => groups.get(taskId) ?? [];
}
