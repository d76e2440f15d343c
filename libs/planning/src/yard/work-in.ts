import { buildHull, checkBook, HullRefusal } from '@ribband/hull';
import { workedIn } from '@ribband/repair';
import type { Add } from './refs.js';
import type { YardDocument } from './yard-document.js';

/**
 * The document with everything in it that its survey comes to by its methods; null, and every fault that was seen,
 * where outline, methods or survey do not hold.
 */
export function workIn(document: YardDocument, add: Add): YardDocument | null {
  const { hull, methods, skills, tools, cardKinds } = document;
  const faults = methods ? checkBook(methods.book) : [];
  for (const { path, message, wouldBeRight } of faults) add(`methods.book.${path}`, message, wouldBeRight);
  const outline = tried('hull.outline.', () => hull && buildHull(hull.outline), add);
  checkOwnTasks(document, add);
  if (document.survey && !hull)
    add('survey', 'a survey of a hull that is not written down', 'the outline in hull, or null');
  if (faults.length > 0 || outline === undefined) return null;
  return tried('', () => workedIn(document, { skills, tools, cards: cardKinds }).document, add) ?? null;
}

function checkOwnTasks({ methods, tasks }: YardDocument, add: Add): void {
  const refs = new Set(tasks.map(({ ref }) => ref));
  for (const [step, task] of Object.entries(methods?.ownTasks ?? {}))
    if (!refs.has(task))
      add(`methods.ownTasks.${step}`, `there is no task ${task}`, 'a ref of the list tasks');
}

/** Undefined, and a fault, where the hull's arithmetic refuses. */
function tried<T>(prefix: string, work: () => T, add: Add): T | undefined {
  try {
    return work();
  } catch (error) {
    if (!(error instanceof HullRefusal)) throw error;
    add(`${prefix}${error.field}`, error.fault, error.wouldBeRight);
    return undefined;
  }
}
