import type { ExpansionChange } from '@ribband/hull';
import { refuse } from '@ribband/platform';
import type { Board } from '../tasks/yard-board.js';
import type { Made } from './work-out.js';

/** What is open now is closed again, whatever the survey says: the task that closes it is not taken away from under it. */
export function refuseLeavingOpen(
  board: Board,
  { before, change }: { before: Made; change: ExpansionChange },
): void {
  const dropped = new Set(change.dropped);
  const task = new Map(board.tasks.map((one) => [one.ref, one]));
  const stage = (ref: string) => board.progress.get(task.get(ref)?.id ?? '')?.stage ?? 'not begun';
  const left = before.tasks.flatMap((closer) =>
    !dropped.has(closer.ref) || stage(closer.ref) === 'passed'
      ? []
      : closer.closes.filter((element) =>
          before.tasks.some((opener) => opener.opens.includes(element) && stage(opener.ref) !== 'not begun'),
        ),
  );
  if (left.length === 0) return;
  refuse('STILL_IN_USE', `${left.length} pieces of the hull are open now, and nothing would close them.`, {
    field: 'survey',
    remedy: 'Keep them in the survey until they are closed.',
    facts: left.slice(0, 50).map((element) => ({ name: 'open', value: element })),
  });
}
