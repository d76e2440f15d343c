import { type Expansion, type MethodTask } from './expand.js';

/** What a new expansion does to the tasks that stand. Tallies and places hang on refs, so `kept` and `changed` keep theirs. */
export interface ExpansionChange {
  kept: string[];
  changed: { ref: string; fields: string[] }[];
  added: string[];
  /** Tasks that the scope no longer asks for. Those with tallies are for a person to decide about, not to delete. */
  dropped: string[];
  linksAdded: number;
  linksDropped: number;
}

export function compareExpansions(before: Expansion, after: Expansion): ExpansionChange {
  const old = new Map(before.tasks.map((task) => [task.ref, task]));
  const now = new Map(after.tasks.map((task) => [task.ref, task]));
  const both = after.tasks.filter((task) => old.has(task.ref));
  const changed = both
    .map((task) => ({ ref: task.ref, fields: differing(old.get(task.ref)!, task) }))
    .filter(({ fields }) => fields.length > 0);
  const moved = new Set(changed.map(({ ref }) => ref));
  const links = (expansion: Expansion): Set<string> =>
    new Set(expansion.links.map((link) => JSON.stringify(link)));
  const [oldLinks, newLinks] = [links(before), links(after)];
  return {
    kept: both.filter((task) => !moved.has(task.ref)).map((task) => task.ref),
    changed,
    added: after.tasks.filter((task) => !old.has(task.ref)).map((task) => task.ref),
    dropped: before.tasks.filter((task) => !now.has(task.ref)).map((task) => task.ref),
    linksAdded: [...newLinks].filter((link) => !oldLinks.has(link)).length,
    linksDropped: [...oldLinks].filter((link) => !newLinks.has(link)).length,
  };
}

const differing = (one: MethodTask, other: MethodTask): string[] =>
  (Object.keys(other) as (keyof MethodTask)[]).filter(
    (field) => JSON.stringify(one[field]) !== JSON.stringify(other[field]),
  );
