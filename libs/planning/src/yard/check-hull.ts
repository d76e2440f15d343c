import { buildHull, HullRefusal } from '@ribband/hull';
import type { Add } from './refs.js';
import type { YardDocument } from './yard-document.js';

/** The outline of the hull does not contradict itself. */
export function checkHull({ hull }: YardDocument, add: Add): void {
  if (!hull) return;
  try {
    buildHull(hull.outline);
  } catch (error) {
    if (!(error instanceof HullRefusal)) throw error;
    add(`hull.outline.${error.field}`, error.fault, error.wouldBeRight);
  }
}
