import { sayPosition, stateWords, type State } from '../words/tasks.js';

export interface Listed {
  id: string;
  title: string;
  position?: string | null;
  state: State;
  held?: string | null;
}

const numeric = new Intl.Collator('en', { numeric: true });

/** Tasks gathered by place on the hull: places in the order of their names, frame 9 before frame 10. */
export function byPosition(tasks: Listed[]): { position: string; tasks: Listed[] }[] {
  const places = new Map<string, Listed[]>();
  for (const task of tasks) {
    const position = sayPosition(task.position);
    const here = places.get(position);
    if (here) here.push(task);
    else places.set(position, [task]);
  }
  return [...places]
    .map(([position, here]) => ({ position, tasks: here }))
    .sort((a, b) => numeric.compare(a.position, b.position));
}

/** Every word sought stands somewhere in the task's title, place or state. */
export function matches(task: Listed, sought: string, state: State | ''): boolean {
  if (state && task.state !== state) return false;
  const text = `${task.title} ${sayPosition(task.position)} ${stateWords[task.state]}`.toLowerCase();
  return sought
    .toLowerCase()
    .split(/\s+/)
    .every((word) => text.includes(word));
}
