import type { Add, Refs } from './refs.js';
import type { YardDocument } from './yard-document.js';

/** Ways on from each task: the task that waits for it, and which link says so. */
type Ways = Map<string, { after: string; link: number }[]>;

/** Links name two tasks and never run in a circle, whichever ends they tie. */
export function checkLinks(document: YardDocument, refs: Refs, add: Add): void {
  const seen = new Set<string>();
  const ways: Ways = new Map(document.tasks.map(({ ref }) => [ref, []]));
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
    ways.get(link.before)?.push({ after: link.after, link: i });
  });
  // In a circle everything waits for everything, so order is asked for only without one.
  if (!reportCircles(ways, add)) checkClosers(document, ways, add);
}

/** Depth first; each way back into the path walked is a circle. It is told at the last of its links. */
function reportCircles(ways: Ways, add: Add): boolean {
  let found = false;
  const state = new Map<string, 'open' | 'shut'>();
  for (const root of ways.keys()) {
    if (state.has(root)) continue;
    const path = [{ task: root, way: 0 }];
    state.set(root, 'open');
    for (let here = path.at(-1); here; here = path.at(-1)) {
      const taken = ways.get(here.task)?.[here.way++];
      if (!taken) {
        state.set(here.task, 'shut');
        path.pop();
      } else if (state.get(taken.after) === 'open') {
        found = true;
        const circle = path.slice(path.findIndex((step) => step.task === taken.after));
        const last = Math.max(...circle.map((step) => ways.get(step.task)?.[step.way - 1]?.link ?? 0));
        add(
          `links[${String(last)}]`,
          `closes a circle: ${[...circle.map((step) => step.task), taken.after].join(', then ')}`,
          'links that run one way; take one of these away',
        );
      } else if (!state.has(taken.after)) {
        state.set(taken.after, 'open');
        path.push({ task: taken.after, way: 0 });
      }
    }
  }
  return found;
}

/** What closes an element can't be something that its opener has to wait for. */
function checkClosers(document: YardDocument, ways: Ways, add: Add): void {
  const opener = new Map(
    document.tasks.flatMap((task) => task.opens.map((element) => [element, task.ref] as const)),
  );
  document.tasks.forEach((task, i) => {
    const openers = new Set(task.closes.map((element) => opener.get(element)));
    openers.delete(task.ref);
    if (openers.size === 0) return;
    const later = new Set([task.ref]);
    for (const ref of later) for (const way of ways.get(ref) ?? []) later.add(way.after);
    task.closes.forEach((element, e) => {
      const by = opener.get(element);
      if (by !== undefined && by !== task.ref && later.has(by))
        add(
          `tasks[${String(i)}].closes[${String(e)}]`,
          `${by} opens ${element} but has to wait for ${task.ref}, which closes it`,
          'a closing task that comes after the opening one',
        );
    });
  });
}
