import type { MethodsDocument } from '../methods/methods-shape.js';
import { taskOf } from '../methods/task-of.js';
import { linkKey, type Made } from '../methods/work-out.js';
import type { RepairDocument } from './repair-document.js';

/**
 * A document without what its survey and methods come to by themselves: what is left was entered by hand or was
 * changed since it was made. What the yard took out of what was made is named in `leftOut`.
 */
export function unlikeMade(document: RepairDocument, methods: MethodsDocument, made: Made): RepairDocument {
  const same = (one: unknown, other: unknown): boolean => canonical(one) === canonical(other);
  const without = <T>(list: readonly T[], fromMethods: readonly T[], key: (one: T) => string): T[] => {
    const known = new Map(fromMethods.map((one) => [key(one), one]));
    return list.filter((one) => !same(one, known.get(key(one))));
  };
  const byRef = (one: { ref: string }): string => one.ref;
  const tasks = new Set(document.tasks.map(byRef));
  const links = new Set(document.links.map(linkKey));
  const missing = made.tasks.filter(({ ref }) => !tasks.has(ref)).map(byRef);
  const loose = made.links.filter(
    (link) => !links.has(linkKey(link)) && tasks.has(link.before) && tasks.has(link.after),
  );
  return {
    ...document,
    methods: {
      ...methods,
      leftOut: {
        tasks: [...new Set([...methods.leftOut.tasks, ...missing])],
        links: [
          ...methods.leftOut.links,
          ...loose.map(({ before, after, relation }) => ({ before, after, relation })),
        ],
      },
    },
    elements: without(document.elements, made.elements, byRef),
    openingLimits: without(document.openingLimits, made.openingLimits, byRef),
    tasks: without(document.tasks, made.tasks.map(taskOf), byRef),
    links: without(document.links, made.links, linkKey),
  };
}

/** The same text for the same value, in whichever order its keys were written. */
function canonical(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) =>
    inner !== null && typeof inner === 'object' && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}
