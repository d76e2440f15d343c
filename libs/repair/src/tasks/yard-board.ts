import { instantToLocal, localToInstant, YardClock, addDays } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { Link } from '../links/link.entity.js';
import { RosterView, usualMinutes } from '../roster-view/roster-view.js';
import { SaySo } from '../tallies/say-so.entity.js';
import { TallyEntity } from '../tallies/tally.entity.js';
import { progressOf, type DayBounds, type Progress } from './progress.js';
import { standings, type Standing } from './task-board.js';
import { Task } from './task.entity.js';

/** How every task of an organisation stands at the yard's present minute. */
export interface Board {
  tasks: Task[];
  links: Link[];
  progress: ReadonlyMap<string, Progress>;
  standing: ReadonlyMap<string, Standing>;
  timeZone: string;
  now: number;
  /** Length of the usual turnout, for links in words. */
  turnoutMinutes: number | null;
}

/** Bounds of local days in a zone. */
export const dayBounds = (timeZone: string): DayBounds => ({
  startOf: (day) => localToInstant(day, '00:00', timeZone),
  endOf: (day) => localToInstant(addDays(day, 1), '00:00', timeZone) - 1,
});

/** Lays out how tasks stand, from the records. Seven reads, whatever the number of tasks. */
@Injectable()
export class YardBoard {
  constructor(
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(RosterView) private readonly roster: RosterView,
  ) {}

  async of(manager: EntityManager, organisationId: string): Promise<Board> {
    const inOrder = { where: { organisationId }, order: { id: 'ASC' } } as const;
    const haulOut = await haulOutInForce(manager, organisationId);
    const timeZone = haulOut?.timeZone ?? 'UTC';
    const now = await this.clock.now(organisationId, manager);
    const tasks = await manager.find(Task, inOrder);
    const links = await manager.find(Link, inOrder);
    const tallies = grouped(await manager.find(TallyEntity, inOrder));
    const saySos = grouped(await manager.find(SaySo, inOrder));
    const turnouts = await this.roster.turnouts(manager, organisationId);
    const taken = await this.roster.takenTasks(manager, organisationId, now);
    const days = dayBounds(timeZone);
    const progress = new Map(
      tasks.map((task) => [task.id, progressOf(task, tallies(task.id), saySos(task.id), days)]),
    );
    const since = days.startOf(haulOut?.hauledOutOn ?? instantToLocal(now, timeZone).day);
    const standing = standings(
      tasks.map((task) => ({
        id: task.id,
        kind: task.kind,
        elapsedMinutes: task.kind === 'elapsed' ? task.likely : null,
        notBefore: task.notBefore === null ? null : days.startOf(task.notBefore),
        isHeld: task.held !== null,
        isDropped: task.droppedAt !== null,
        isTaken: taken.has(task.id),
        progress: progress.get(task.id) as Progress,
      })),
      links,
      turnouts,
      { now, since },
    );
    return { tasks, links, progress, standing, timeZone, now, turnoutMinutes: usualMinutes(turnouts) };
  }
}

function grouped<T extends { taskId: string }>(rows: T[]): (taskId: string) => T[] {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const group = groups.get(row.taskId);
    if (group) group.push(row);
    else groups.set(row.taskId, [row]);
  }
  return (taskId) => groups.get(taskId) ?? [];
}
