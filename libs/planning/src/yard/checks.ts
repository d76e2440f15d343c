import { cameOffFaults } from '@ribband/repair';
import { checkBooks } from './check-books.js';
import { checkCalendar } from './check-calendar.js';
import { checkKeeping } from './check-keeping.js';
import { checkLinks } from './check-links.js';
import { checkPeople } from './check-people.js';
import { checkSafety } from './check-safety.js';
import { checkTasks } from './check-tasks.js';
import { checkTimber } from './check-timber.js';
import { faultsOfShape, type YardFault } from './faults.js';
import { Refs } from './refs.js';
import { workIn } from './work-in.js';
import { yardDocument, type YardDocument } from './yard-document.js';

/** Reads any value as a yard document: the document, or everything that is wrong with it. */
export function readYard(value: unknown): { document: YardDocument } | { faults: YardFault[] } {
  const shape = yardDocument.safeParse(value, { reportInput: true });
  if (!shape.success) return { faults: faultsOfShape(shape.error) };
  const faults = checkYard(shape.data);
  return faults.length > 0 ? { faults } : { document: shape.data };
}

/** What is wrong between the parts of a document whose shape is right, in the order of the document. */
function checkYard(given: YardDocument): YardFault[] {
  const faults: YardFault[] = [];
  const add = (path: string, message: string, wouldBeRight: string) => {
    faults.push({ path, message, wouldBeRight });
  };
  const document = workIn(given, add);
  if (!document) return faults;
  const refs = new Refs(document, add);
  checkKeeping(document, refs, add);
  checkTasks(document, refs, add);
  checkLinks(document, refs, add);
  checkCalendar(document, add);
  checkPeople(document, refs, add);
  checkTimber(document, refs, add);
  cameOffFaults(document.cameOff, add);
  checkSafety(document, refs, add);
  checkBooks(document, refs, add);
  return faults;
}
