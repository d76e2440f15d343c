import type { Add, Refs } from './refs.js';
import type { YardDocument } from './yard-document.js';

/** Supports, reports, marks, hold points and overrides name what is there, each once. */
export function checkKeeping({ openings, openingLimits, tasks }: YardDocument, refs: Refs, add: Add): void {
  openingLimits.forEach(({ override, elements }, i) => {
    override?.elements?.forEach((element, k) => {
      if (!elements.includes(element))
        add(
          `openingLimits[${i}].override.elements[${k}]`,
          `this limit does not count ${element}`,
          'one of its own elements, or null for all of them',
        );
    });
  });
  const once = (path: string, keys: string[]): void => {
    keys.forEach((key, i) => {
      if (keys.indexOf(key) < i) add(`openings.${path}[${i}]`, `${key} comes twice`, 'each once');
    });
  };
  openings.supports.forEach(({ task, firstFrame, lastFrame, seen }, i) => {
    const path = `openings.supports[${i}]`;
    if (task !== null) refs.check('tasks', task, `${path}.task`);
    if (task === null && seen === null)
      add(`${path}.seen`, 'neither work sets it nor has anybody seen it', 'who saw it and when, or the task');
    if ((firstFrame === null) !== (lastFrame === null) || (firstFrame ?? 0) > (lastFrame ?? 0))
      add(
        `${path}.lastFrame`,
        'does not end where it should',
        'the first frame or one aft of it; null with null',
      );
  });
  openings.reports.forEach(({ element }, i) => {
    refs.check('elements', element, `openings.reports[${i}].element`);
  });
  const kinds = new Map(tasks.map(({ ref, kind }) => [ref, kind]));
  openings.holdPoints.forEach(({ task }, i) => {
    const path = `openings.holdPoints[${i}].task`;
    if (refs.check('tasks', task, path) && kinds.get(task) !== 'hold')
      add(path, `${task} is no say-so`, 'a task of kind hold');
  });
  const refsOf = (rows: { ref: string }[]): string[] => rows.map(({ ref }) => ref);
  once('supports', refsOf(openings.supports));
  once('witnessMarks', refsOf(openings.witnessMarks));
  once(
    'holdPoints',
    openings.holdPoints.map(({ task }) => task),
  );
  once(
    'plankLayouts',
    openings.plankLayouts.map(({ side }) => side),
  );
}
