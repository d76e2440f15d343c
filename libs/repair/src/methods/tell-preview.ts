import { buildHull, type MethodTask } from '@ribband/hull';
import { tellScope } from '../survey/tell-scope.js';
import { taskOf } from './task-of.js';
import type { WorkPreview } from './work.service.js';
import type { TaskTouched, WorkPreviewType } from './work.types.js';
import type { Made } from './work-out.js';

/** A preview as it is told over the API. */
export function tellPreview(preview: WorkPreview): WorkPreviewType {
  const { outline, scope, before, after, change } = preview;
  const old = new Map(before.tasks.map((task) => [task.ref, task]));
  const now = new Map(after.tasks.map((task) => [task.ref, task]));
  return {
    scope: scope && outline && tellScope(buildHull(outline), scope),
    added: change.added.map((ref) => touched(now.get(ref)!)),
    changed: change.changed.map(({ ref, fields }) => touched(now.get(ref)!, fields)),
    dropped: change.dropped.map((ref) => touched(old.get(ref)!)),
    kept: change.kept.length,
    linksAdded: change.linksAdded,
    linksDropped: change.linksDropped,
    hoursBefore: hoursOf(before),
    hoursAfter: hoursOf(after),
  };
}

const inWords: Record<string, string> = {
  estimate: 'how much there is',
  method: 'version of its method',
  seats: 'seats',
  crew: 'crew',
  opens: 'what it opens',
  closes: 'what it closes',
  noticeDays: 'days of notice',
};

const touched = (task: MethodTask, fields: string[] = []): TaskTouched => ({
  ref: task.ref,
  title: taskOf(task).title,
  fields: fields.map((field) => inWords[field] ?? field),
});

/** Likely hours of people at work. */
function hoursOf({ tasks }: Made): number {
  const hours = tasks.reduce((sum, { kind, estimate, crew }) => {
    if (!estimate || kind === 'elapsed') return sum;
    switch (estimate.by) {
      case 'count':
        return sum + estimate.count / estimate.perPersonHour.likely;
      case 'work':
        return sum + estimate.personMinutes.likely / 60;
      case 'time':
        return sum + (estimate.minutes.likely / 60) * crew.efficient;
    }
  }, 0);
  return Math.round(hours * 10) / 10;
}
