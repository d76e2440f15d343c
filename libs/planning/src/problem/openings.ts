import type { YardRecords } from './yard-records.js';

/** What the engine is told of openings: what tasks open and shut, and how far the hull may be open. */
export interface SeenOpenings {
  opens(taskId: string): string[];
  closes(taskId: string): string[];
  limits: { id: string; name: string; elementIds: string[]; atMost: number }[];
}

/**
 * Lays what was seen at the yard over what the tasks would say. For the engine an element without an opener is open
 * from the first, so one that was seen open before its work began loses its opener; one that was seen shut loses
 * both. One that is open and that no work will shut takes a seat from each of its limits for good.
 */
export function seenOpenings(yard: Pick<YardRecords, 'elements' | 'tasks' | 'openingLimits'>): SeenOpenings {
  const task = { opens: new Map<string, string>(), closes: new Map<string, string>() };
  const byId = new Map(yard.tasks.map((one) => [one.id, one]));
  for (const { id, opens, closes, state } of yard.tasks) {
    if (state === 'dropped') continue;
    for (const element of opens) task.opens.set(element, id);
    for (const element of closes) task.closes.set(element, id);
  }
  const noOpener = new Set<string>();
  const noCloser = new Set<string>();
  const openForGood = new Set<string>();
  for (const { id, seen } of yard.elements) {
    if (seen === null) continue;
    const opener = byId.get(task.opens.get(id) ?? '');
    const closer = byId.get(task.closes.get(id) ?? '');
    const hasBegun = opener ? opener.startedAt !== null : closer !== undefined;
    const isShutAgain = closer?.state === 'done';
    const byTasks = hasBegun && !isShutAgain;
    if (seen === 'open' && (!byTasks || !closer)) {
      noOpener.add(id);
      if (!closer || isShutAgain) {
        noCloser.add(id);
        openForGood.add(id);
      }
    }
    if (seen === 'shut' && byTasks) {
      noOpener.add(id);
      noCloser.add(id);
    }
  }
  return {
    opens: (id) => (byId.get(id)?.opens ?? []).filter((element) => !noOpener.has(element)),
    closes: (id) => (byId.get(id)?.closes ?? []).filter((element) => !noCloser.has(element)),
    limits: yard.openingLimits.map(({ id, name, elementIds, atMost }) => ({
      id,
      name,
      elementIds: elementIds.filter((element) => !openForGood.has(element)),
      atMost: Math.max(0, atMost - elementIds.filter((element) => openForGood.has(element)).length),
    })),
  };
}
