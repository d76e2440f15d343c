import type { Add, Refs } from './refs.js';
import type { YardDocument } from './yard-document.js';

/**
 * Links name two tasks and never run in a circle.
 *
 * Each task has two ends, its start and its finish, and its start comes before its finish. A link ties an end of one
 * task to an end of another. So two tasks that start together and end together in the other order are no circle, and
 * a circle is a way from an end back to itself.
 */
export function checkLinks(document: YardDocument, refs: Refs, add: Add): void {
  const seen = new Set<string>();
  const next = new Map<string, { end: string; link: number | null }[]>();
  const step = (from: string, end: string, link: number | null) => {
    const ways = next.get(from);
    if (ways) ways.push({ end, link });
    else next.set(from, [{ end, link }]);
  };
  for (const { ref } of document.tasks) step(`start ${ref}`, `finish ${ref}`, null);

  document.links.forEach((link, i) => {
    const path = `links[${String(i)}]`;
    const known = [
      refs.check('tasks', link.before, `${path}.before`),
      refs.check('tasks', link.after, `${path}.after`),
    ];
    if (known.includes(false)) return;
    if (link.before === link.after) {
      add(`${path}.after`, `${link.after} follows itself`, 'another task');
      return;
    }
    const key = `${link.before} ${link.after} ${link.relation}`;
    if (seen.has(key)) add(path, `the same link stands twice: ${key}`, 'each link once');
    seen.add(key);
    const [from, to] = link.relation.split('-to-');
    step(`${String(from)} ${link.before}`, `${String(to)} ${link.after}`, i);
  });
  reportCircles(next, add);
  checkClosers(document, next, add);
}

/** Depth first; each way back into the path walked is a circle. It is told at the last of its links. */
function reportCircles(next: Map<string, { end: string; link: number | null }[]>, add: Add): void {
  const state = new Map<string, 'open' | 'shut'>();
  for (const root of next.keys()) {
    if (state.has(root)) continue;
    const path = [{ end: root, way: 0 }];
    state.set(root, 'open');
    while (path.length > 0) {
      const here = path[path.length - 1];
      if (!here) break;
      const ways = next.get(here.end) ?? [];
      const taken = ways[here.way++];
      if (!taken) {
        state.set(here.end, 'shut');
        path.pop();
      } else if (state.get(taken.end) === 'open') {
        const from = path.findIndex((step) => step.end === taken.end);
        const tasks = path.slice(from).map((step) => step.end.slice(step.end.indexOf(' ') + 1));
        const names = tasks.filter((name, k) => tasks.indexOf(name) === k);
        const links = path.slice(from).map((step) => next.get(step.end)?.[step.way - 1]?.link ?? -1);
        const link = Math.max(...links);
        add(
          `links[${String(link)}]`,
          `closes a circle: ${[...names, names[0] ?? ''].join(', then ')}`,
          'links that run one way; take one of these away',
        );
      } else if (!state.has(taken.end)) {
        state.set(taken.end, 'open');
        path.push({ end: taken.end, way: 0 });
      }
    }
  }
}

/** What closes an element can't be something that its opener has to wait for. */
function checkClosers(
  document: YardDocument,
  next: Map<string, { end: string; link: number | null }[]>,
  add: Add,
): void {
  const opener = new Map(
    document.tasks.flatMap((task) => task.opens.map((element) => [element, task.ref] as const)),
  );
  document.tasks.forEach((task, i) => {
    const openers = new Set(task.closes.map((element) => opener.get(element)));
    openers.delete(task.ref);
    if (openers.size === 0) return;
    const later = reachable(`finish ${task.ref}`, next);
    task.closes.forEach((element, e) => {
      const by = opener.get(element);
      if (by !== undefined && later.has(`start ${by}`))
        add(
          `tasks[${String(i)}].closes[${String(e)}]`,
          `${by} opens ${element} but has to wait for ${task.ref}, which closes it`,
          'a closing task that comes after the opening one',
        );
    });
  });
}

function reachable(from: string, next: Map<string, { end: string }[]>): Set<string> {
  const seen = new Set([from]);
  for (const end of seen) for (const way of next.get(end) ?? []) seen.add(way.end);
  return seen;
}
