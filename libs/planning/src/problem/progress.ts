import type { Progress } from '@ribband/engine';
import type { PlanClock } from './minutes.js';
import type { TaskRecord } from './yard-records.js';

/** How far a task has come at the plan's first minute, and what is left of its length. */
export interface Standing {
  progress: Progress;
  /** Minutes left of an elapsed or a fixed task; 0 where the task has no length of its own. */
  minutesLeft: number;
}

/** Where a task stands, in the engine's minutes. */
export function standingOf(task: TaskRecord, now: number, clock: PlanClock): Standing {
  const within = (minute: number) => Math.max(0, Math.min(now, minute));
  const startedAt = task.startedAt === null ? null : within(clock.minute(task.startedAt));
  if (task.state === 'done') {
    const endedAt = task.endedAt === null ? now : within(clock.minuteFrom(task.endedAt));
    const progress = { kind: 'done', startedAt: Math.min(startedAt ?? endedAt, endedAt), endedAt } as const;
    return { progress, minutesLeft: 0 };
  }
  const minutes = task.minutes ?? 0;
  if (startedAt === null || task.state === 'dropped')
    return { progress: { kind: 'waiting' }, minutesLeft: minutes };
  // Time that passes by itself goes on whether or not somebody looks.
  const minutesLeft = task.kind === 'elapsed' ? Math.max(1, startedAt + minutes - now) : minutes;
  return { progress: { kind: 'under way', startedAt }, minutesLeft };
}
