import type { Task } from '@ribband/repair';
import { floatWords } from '../words/plan-sentences.js';
import { holdSentence } from '../words/hold.js';
import type { PlannedTask } from './plan.types.js';
import type { ToldPlan } from './told-plan.js';

/** Where a task lies in a plan; null where the plan leaves it out or there is none. */
export function plannedTask(told: ToldPlan, task: Task): PlannedTask | null {
  const index = told.indexOf(task.id);
  const sentences = told.told;
  if (index === undefined || !sentences || task.droppedAt !== null) return null;
  const times = sentences.plan.tasks[index];
  if (!times) return null;
  return {
    id: task.id,
    task,
    startsAt: told.instant(times.start),
    endsAt: told.instant(times.end),
    floatMinutes: times.float,
    floatWords: floatWords(times.float, told.longestTurnout),
    heldBy: holdSentence(sentences, index, times.heldBy),
  };
}
