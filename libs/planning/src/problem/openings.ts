import { addDays, lastDay } from '@ribband/platform';
import type { YardRecords } from './yard-records.js';

/** What the engine is told of openings: what tasks open and shut, and how far the hull may be open. */
export interface SeenOpenings {
  opens(taskId: string): string[];
  closes(taskId: string): string[];
  limits: LimitLaid[];
}

interface LimitLaid {
  id: string;
  name: string;
  elementIds: string[];
  atMost: number;
  /** The first day on which it counts; null: from the first. */
  fromOn: string | null;
}

/**
 * Lays what was seen at the yard over what the tasks would say. For the engine an element without an opener is open
 * from the first, so one that was seen open before its work began loses its opener; one that was seen shut loses
 * both. One that is open and that no work will shut takes a seat from each of its limits for good.
 *
 * What the shipwright's override lets be open is not counted; where it has a last day, the whole limit counts again
 * from the day after.
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
    limits: yard.openingLimits.flatMap(laidLimits).map(({ elementIds, atMost, ...limit }) => ({
      ...limit,
      elementIds: elementIds.filter((element) => !openForGood.has(element)),
      atMost: Math.max(0, atMost - elementIds.filter((element) => openForGood.has(element)).length),
    })),
  };
}

/** A limit as it counts now and, where an override runs out, as it counts from then on. */
function laidLimits({ spared, ...limit }: YardRecords['openingLimits'][number]): LimitLaid[] {
  if (spared === null) return [{ ...limit, fromOn: null }];
  const rest = limit.elementIds.filter((element) => !spared.elementIds.includes(element));
  const now = rest.length > 0 ? [{ ...limit, elementIds: rest, fromOn: null }] : [];
  if (spared.untilOn === null || spared.untilOn >= lastDay) return now;
  return [...now, { ...limit, fromOn: addDays(spared.untilOn, 1) }];
}
