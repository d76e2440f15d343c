import { hoursFaults, type NamedThere, turnoutBookFaults } from '@ribband/roster';
import { startsOf } from './check-calendar.js';
import { once } from './check-safety.js';
import type { Add, Refs } from './refs.js';
import type { YardDocument } from './yard-document.js';

/** The hours book, what was kept at turnouts, and what was decided about plans name what is there. */
export function checkBooks(document: YardDocument, refs: Refs, add: Add): void {
  const { hours, turnoutBook, planBook } = document;
  const starts = hours || turnoutBook ? startsOf(document) : new Set<string>();
  const watches = document.singleTurnouts.filter(({ kind }) => kind === 'watch');
  const named: NamedThere = {
    check: (list, ref, path) => refs.check(list, ref, path),
    turnout: ({ on, startTime }, path) => {
      if (!starts.has(`${on} ${startTime}`))
        add(path, `there is no turnout on ${on} at ${startTime}`, 'the day and start of a turnout');
    },
    watch: ({ on, startTime }, path) => {
      if (!watches.some((watch) => watch.on === on && watch.startTime === startTime))
        add(path, `there is no watch on ${on} at ${startTime}`, 'the day and start of a watch afloat');
    },
  };
  if (hours) hoursFaults(hours, named, add);
  if (turnoutBook) turnoutBookFaults(turnoutBook, named, add);
  planBook?.baselines.forEach(({ tasks }, i) => {
    tasks.forEach(({ task, startsAt, endsAt }, k) => {
      const path = `planBook.baselines[${i}].tasks[${k}]`;
      refs.check('tasks', task, `${path}.task`);
      if (endsAt < startsAt) add(`${path}.endsAt`, 'is before the start', `${startsAt} or later`);
    });
  });
  once(
    planBook?.paces.map(({ kind }) => kind),
    (i) => `planBook.paces[${i}].kind`,
    add,
  );
}
