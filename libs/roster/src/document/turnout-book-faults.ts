import { ruleBook } from '@ribband/crew';
import { RefusalError } from '@ribband/platform';
import { readPicture } from '@ribband/repair';
import type { NamedThere } from '../hours/hours-faults.js';
import { pumpLogFaults } from '../pump-log/pump-log.document.js';
import type { TurnoutBook } from './turnout-book.js';

type Add = (path: string, message: string, wouldBeRight: string) => void;

/** What is wrong within what was kept at turnouts, of a document whose shape is right. */
export function turnoutBookFaults(book: TurnoutBook, named: NamedThere, add: Add): void {
  const each = <Row extends { on: string; startTime: string }>(
    list: string,
    rows: readonly Row[],
    personOf: (row: Row) => string | null,
    isOnce: boolean,
  ) => {
    const seen = new Set<string>();
    rows.forEach((row, i) => {
      const path = `turnoutBook.${list}[${i}]`;
      named.turnout(row, `${path}.on`);
      const person = personOf(row);
      if (person !== null) named.check('volunteers', person, `${path}.volunteer`);
      const key = `${row.on} ${row.startTime} ${person ?? ''}`;
      if (isOnce && seen.has(key)) add(path, `stands twice: ${key.trim()}`, 'each once a turnout');
      seen.add(key);
    });
  };
  each('attendance', book.attendance, ({ volunteer }) => volunteer, true);
  each('calls', book.calls, () => null, false);
  each('absences', book.absences, ({ volunteer }) => volunteer, true);
  each('swingHands', book.swingHands, ({ volunteer }) => volunteer, true);
  each('closingRounds', book.closingRounds, () => null, true);
  each('setAside', book.setAside, ({ volunteer }) => volunteer, false);
  book.setAside.forEach(({ task, rule }, i) => {
    named.check('tasks', task, `turnoutBook.setAside[${i}].task`);
    if (ruleBook[rule].setAsideBy === 'nobody')
      add(
        `turnoutBook.setAside[${i}].rule`,
        'is a rule that nobody sets aside',
        'another rule, or leave it out',
      );
  });
  book.attendance.forEach(({ arrivedAt, leftAt }, i) => {
    if (leftAt !== null && leftAt < arrivedAt)
      add(`turnoutBook.attendance[${i}].leftAt`, 'is before the arrival', `${arrivedAt} or later, or null`);
  });
  book.calls.forEach(({ fallen, replaced }, i) => {
    fallen.forEach(({ task }, k) => named.check('tasks', task, `turnoutBook.calls[${i}].fallen[${k}].task`));
    replaced.forEach(({ task, volunteer, skill }, k) => {
      const path = `turnoutBook.calls[${i}].replaced[${k}]`;
      named.check('tasks', task, `${path}.task`);
      if (volunteer !== null) named.check('volunteers', volunteer, `${path}.volunteer`);
      if (skill !== null) named.check('skills', skill, `${path}.skill`);
    });
  });
  book.closingRounds.forEach(({ accounted }, i) => {
    accounted.forEach((one, k) => {
      named.check('volunteers', one, `turnoutBook.closingRounds[${i}].accounted[${k}]`);
    });
  });
  each('fireWatches', book.fireWatches, () => null, false);
  book.fireWatches.forEach(({ task, watch, notLit, lookedAt, found }, i) => {
    const path = `turnoutBook.fireWatches[${i}]`;
    named.check('tasks', task, `${path}.task`);
    if (watch !== null) named.check('volunteers', watch, `${path}.watch`);
    if ((watch === null) === (notLit === null))
      add(`${path}.watch`, 'stands with why no hot work was done, or neither does', 'one of the two');
    if ((lookedAt === null) !== (found === null))
      add(`${path}.found`, 'does not go with whether somebody looked', 'what was found by a look, else null');
  });
  pumpLogFaults(book.pumpLog, named, add);
  incidentFaults(book.incidents, named, add);
}

function incidentFaults(incidents: TurnoutBook['incidents'], named: NamedThere, add: Add): void {
  incidents.forEach(({ reporter, owner, picture, closed, outcome }, i) => {
    const path = `turnoutBook.incidents[${i}]`;
    if (reporter !== null) named.check('volunteers', reporter, `${path}.reporter`);
    if (owner !== null) named.check('volunteers', owner, `${path}.owner`);
    if ((closed === null) !== (outcome === null))
      add(
        `${path}.outcome`,
        'does not go with whether it is closed',
        'what was done where it is closed, else null',
      );
    if (picture === null) return;
    try {
      const read = readPicture(picture.base64, 'base64');
      if (read.type !== picture.type) add(`${path}.picture.type`, 'is not what the bytes are', read.type);
    } catch (error) {
      if (!(error instanceof RefusalError)) throw error;
      add(`${path}.picture.base64`, error.refusal.message, 'a JPEG, PNG or WebP in base 64, or null');
    }
  });
}
