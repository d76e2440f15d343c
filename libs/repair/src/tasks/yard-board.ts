import { instantToLocal, localToInstant, YardClock, addDays } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { Link } from '../links/link.entity.js';
import { RosterView, usualMinutes } from '../roster-view/roster-view.js';
import { SaySo } from '../tallies/say-so.entity.js';
import { TallyEntity } from '../tallies/tally.entity.js';
import { StockHold } from '../timber/stock-hold.entity.js';
import { progressOf, type DayBounds, type Progress } from './progress.js';
import { standings, type Standing } from './task-board.js';
import { Task } from './task.entity.js';

/** How every task of an organisation stands at the yard's present minute. */
export interface Board {
  /** In the order in which they were entered. */
  tasks: Task[];
  task: ReadonlyMap<string, Task>;
  links: Link[];
  /** Links by the task that waits, and by the one that is waited for. */
  linksInto: ReadonlyMap<string, Link[]>;
  linksFrom: ReadonlyMap<string, Link[]>;
  progress: ReadonlyMap<string, Progress>;
  standing: ReadonlyMap<string, Standing>;
  timeZone: string;
  now: number;
  /** Length of the usual turnout, for links in words. */
  turnoutMinutes: number | null;
  /** Local day before which a task cannot begin: its own, or that of the timber it waits for; null for none. */
  notBefore: (task: Task) => string | null;
}

/** Bounds of local days in a zone. */
export const dayBounds = (timeZone: string): DayBounds => ({
  startOf: (day) => localToInstant(day, '00:00', timeZone),
  endOf: (day) => localToInstant(addDays(day, 1), '00:00', timeZone) - 1,
});

/** Lays out how tasks stand, from the records. Eight reads, whatever the number of tasks. */
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
    const byTask = ({ taskId }: { taskId: string }) => taskId;
    const tallies = grouped(await manager.find(TallyEntity, inOrder), byTask);
    const saySos = grouped(await manager.find(SaySo, inOrder), byTask);
    const turnouts = await this.roster.turnouts(manager, organisationId);
    const taken = await this.roster.takenTasks(manager, organisationId, now);
    const days = dayBounds(timeZone);
    const timber = new Map(
      (await manager.findBy(StockHold, { organisationId })).map((hold) => [hold.taskId, hold.fromOn]),
    );
    const notBefore = (task: Task) => laterDay(task.notBefore, timber.get(task.id) ?? null);
    const progress = new Map(
      tasks.map((task) => [
        task.id,
        progressOf(task, tallies.get(task.id) ?? [], saySos.get(task.id) ?? [], days),
      ]),
    );
    const since = days.startOf(haulOut?.hauledOutOn ?? instantToLocal(now, timeZone).day);
    const standing = standings(
      tasks.map((task) => ({
        id: task.id,
        kind: task.kind,
        elapsedMinutes: task.kind === 'elapsed' ? task.likely : null,
        notBefore: startOrNull(days, notBefore(task)),
        isHeld: task.held !== null,
        isDropped: task.droppedAt !== null,
        isTaken: taken.has(task.id),
        progress: progress.get(task.id) as Progress,
      })),
      links,
      turnouts,
      { now, since },
    );
    return {
      tasks,
      task: new Map(tasks.map((task) => [task.id, task])),
      links,
      linksInto: grouped(links, (link) => link.afterId),
      linksFrom: grouped(links, (link) => link.beforeId),
      progress,
      standing,
      timeZone,
      now,
      turnoutMinutes: usualMinutes(turnouts),
      notBefore,
    };
  }
}

const startOrNull = (days: DayBounds, day: string | null): number | null =>
  day === null ? null : days.startOf(day);

function laterDay(one: string | null, other: string | null): string | null {
  if (one === null || other === null) return one ?? other;
  return one > other ? one : other;
}

function grouped<T>(rows: readonly T[], keyOf: (row: T) => string): Map<string, T[]> {
  const groups = new Map<string, T[]>();
  for (const row of rows) {
    const group = groups.get(keyOf(row));
    if (group) group.push(row);
    else groups.set(keyOf(row), [row]);
  }
  return groups;
}
