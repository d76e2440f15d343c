import type { Caller } from '@ribband/access';
import type { SaySo } from '../tallies/say-so.entity.js';
import type { Board } from '../tasks/yard-board.js';
import type { Task } from '../tasks/task.entity.js';
import type { StandIn } from '../methods/stand-ins.js';
import { isTaskOf, workedElement } from './element-words.js';
import type { PieceNote } from './piece-note.entity.js';

/** A line of a story: when, what, and who said so (null to those who need not know). */
export interface StoryLine {
  at: number;
  words: string;
  by: string | null;
}

/**
 * The tasks of an element in the order in which they were entered, those that were dropped left out: its own by their
 * refs, and the yard's own that stand for its steps.
 */
export function tasksOfElement(board: Board, key: string | null, standIns: readonly StandIn[]): Task[] {
  if (key === null) return [];
  const own = new Set(standIns.filter(({ element }) => element === workedElement(key)).map(({ ref }) => ref));
  return board.tasks.filter((task) => task.droppedAt === null && (isTaskOf(task, key) || own.has(task.ref)));
}

/** What has been done on an element: work begun and shown, and what the shipwright said. */
export function workStory(board: Board, tasks: readonly Task[], saySos: readonly SaySo[]): StoryLine[] {
  const lines: StoryLine[] = [];
  for (const task of tasks) {
    const progress = board.progress.get(task.id);
    if (progress && progress.begunAt !== null)
      lines.push({ at: progress.begunAt, words: `Begun: ${task.title}.`, by: null });
    if (progress && progress.doneAt !== null && progress.doneAt !== progress.begunAt)
      lines.push({ at: progress.doneAt, words: `Done: ${task.title}.`, by: null });
  }
  const titles = new Map(tasks.map((task) => [task.id, task.title]));
  for (const said of saySos) {
    const title = titles.get(said.taskId);
    if (title === undefined) continue;
    const remark = said.note === null ? '' : ` ${said.note}`;
    const words = `${said.verdict === 'passed' ? 'Passed' : 'Sent back'}: ${title}.${remark}`;
    lines.push({ at: said.yardAt, words, by: said.saidBy });
  }
  return lines;
}

/** Notes of a piece; volunteers are not told who wrote them. */
export const noteStory = (notes: readonly PieceNote[], caller: Caller): StoryLine[] =>
  notes.map(({ yardAt, words, enteredBy }) => ({
    at: yardAt,
    words,
    by: caller.role === 'volunteer' ? null : enteredBy,
  }));

/** What is to be done next: what is under way or sent back, else what is clear, else the first that waits. */
export function nextOf(board: Board, tasks: readonly Task[]): Task | null {
  const order = ['redo', 'under-way', 'shown', 'taken', 'clear', 'held', 'waiting'] as const;
  for (const state of order) {
    const found = tasks.find((task) => board.standing.get(task.id)?.state === state);
    if (found) return found;
  }
  return null;
}
