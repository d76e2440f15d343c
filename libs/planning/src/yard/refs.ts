import type { YardDocument } from './yard-document.js';

/** Notes a fault: where, what is wrong, what would be right. */
export type Add = (path: string, message: string, wouldBeRight: string) => void;

const lists = [
  'skills',
  'cardKinds',
  'tools',
  'elements',
  'openingLimits',
  'tasks',
  'turnoutRules',
  'volunteers',
] as const;
export type RefList = (typeof lists)[number];

const inWords: Record<RefList, string> = {
  skills: 'skill',
  cardKinds: 'kind of card',
  tools: 'tool',
  elements: 'hull element',
  openingLimits: 'opening limit',
  tasks: 'task',
  turnoutRules: 'turnout rule',
  volunteers: 'volunteer',
};

/** The refs of a document, each list by itself; says which are used twice and which don't exist. */
export class Refs {
  readonly #known = new Map<RefList, Set<string>>();
  readonly #add: Add;

  constructor(document: YardDocument, add: Add) {
    this.#add = add;
    for (const list of lists) {
      this.#known.set(list, once(document[list], list, add));
    }
    once(document.haulOut.liftSlots, 'haulOut.liftSlots', add);
  }

  /** True when `ref` is in the list; else a fault at `path`. */
  check(list: RefList, ref: string, path: string): boolean {
    const known = this.#known.get(list);
    if (known?.has(ref)) return true;
    this.#add(path, `there is no ${inWords[list]} ${ref}`, `a ref of the list ${list}${nearest(ref, known)}`);
    return false;
  }

  /** Checks each of a list of refs, none of which may come twice. */
  checkAll(list: RefList, refs: readonly string[], path: string): void {
    refs.forEach((ref, i) => {
      this.check(list, ref, `${path}[${String(i)}]`);
      if (refs.indexOf(ref) < i) this.#add(`${path}[${String(i)}]`, `${ref} comes twice`, 'each ref once');
    });
  }
}

function once(items: readonly { ref: string }[], path: string, add: Add): Set<string> {
  const seen = new Set<string>();
  items.forEach(({ ref }, i) => {
    if (seen.has(ref))
      add(`${path}[${String(i)}].ref`, `${ref} is used twice`, 'a ref that nothing else in the list has');
    seen.add(ref);
  });
  return seen;
}

/** A hint for a slip of the pen: the only known ref that shares the first half of the letters. */
function nearest(ref: string, known: Set<string> | undefined): string {
  const stem = ref.slice(0, Math.max(3, Math.ceil(ref.length / 2)));
  const alike = [...(known ?? [])].filter((other) => other.startsWith(stem));
  return alike.length === 1 ? `, perhaps ${alike[0] ?? ''}` : '';
}
