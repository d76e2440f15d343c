import { buildHull } from '@ribband/hull';
import type { RepairDocument } from '../document/repair-document.js';
import { needChoices } from '../survey/scope.js';
import { taskOf } from './task-of.js';
import { linkKey, type Made, workOut } from './work-out.js';
import type { YardNames } from './yard-names.js';

/** A document with everything in it that its survey comes to; null beside it where it has no survey or no methods. */
export interface WorkedIn<T> {
  document: T;
  made: Made | null;
}

type Parts = Pick<
  RepairDocument,
  'hull' | 'survey' | 'methods' | 'tasks' | 'links' | 'elements' | 'openingLimits'
>;

/**
 * Works the survey of a document out by its methods. What the document writes out itself stands as it is written:
 * a task, link, element or limit of the same name is not made a second time.
 * @throws HullRefusal naming the field of outline, survey or methods that does not hold
 */
export function workedIn<T extends Parts>(document: T, yard: YardNames): WorkedIn<T> {
  const { hull, survey, methods } = document;
  if (!hull || !survey || !methods) return { document, made: null };
  const built = buildHull(hull.outline);
  const found = workOut(built, survey, methods, yard);
  needChoices(built, found, survey);
  const { made } = found;
  return {
    document: {
      ...document,
      elements: joined(document.elements, made.elements, (one) => one.ref),
      openingLimits: joined(document.openingLimits, made.openingLimits, (one) => one.ref),
      tasks: joined(document.tasks, made.tasks.map(taskOf), (one) => one.ref),
      links: joined(document.links, made.links, linkKey),
    },
    made,
  };
}

function joined<T>(written: readonly T[], made: readonly T[], key: (one: T) => string): T[] {
  const known = new Set(written.map(key));
  return [...written, ...made.filter((one) => !known.has(key(one)))];
}
