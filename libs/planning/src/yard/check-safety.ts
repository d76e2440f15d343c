import type { Add, Refs } from './refs.js';
import type { YardDocument } from './yard-document.js';

/** Permits, tags, weather, noise and delegations name what is there and end after they begin. */
export function checkSafety({ safety, delegations }: YardDocument, refs: Refs, add: Add): void {
  safety?.permits.forEach(({ task, opensAt, expiresAt }, i) => {
    const path = `safety.permits[${i}]`;
    if (task !== null) refs.check('tasks', task, `${path}.task`);
    if (expiresAt <= opensAt)
      add(`${path}.expiresAt`, 'is over before it opens', `a moment after ${opensAt}`);
  });
  safety?.tags.forEach(({ inspectedOn, expiresOn }, i) => {
    if (expiresOn < inspectedOn)
      add(`safety.tags[${i}].expiresOn`, 'lapses before it was inspected', `${inspectedOn} or later`);
  });
  once(
    safety?.weather.map(({ on }) => on),
    (i) => `safety.weather[${i}].on`,
    add,
  );
  safety?.loudness.forEach(({ tool }, i) => {
    if (tool !== null) refs.check('tools', tool, `safety.loudness[${i}].tool`);
  });
  once(
    safety?.loudness.map(({ tool }) => tool ?? 'work by hand'),
    (i) => `safety.loudness[${i}].tool`,
    add,
  );
  delegations?.forEach(({ volunteer, scope, names, from, until }, i) => {
    const path = `delegations[${i}]`;
    refs.check('volunteers', volunteer, `${path}.volunteer`);
    if (scope === 'skill') refs.checkAll('skills', names, `${path}.names`);
    if (scope === 'tasks') refs.checkAll('tasks', names, `${path}.names`);
    if ((scope === 'all') !== (names.length === 0))
      add(`${path}.names`, 'do not go with the scope', 'none for all work, one or more for any other scope');
    if (until < from) add(`${path}.until`, 'is before the first day', `${from} or later`);
  });
}

/** Notes every key that stands in a list twice. */
export function once(keys: readonly string[] | undefined, path: (at: number) => string, add: Add): void {
  const seen = new Set<string>();
  keys?.forEach((key, i) => {
    if (seen.has(key)) add(path(i), `${key} comes twice`, 'each once');
    seen.add(key);
  });
}
