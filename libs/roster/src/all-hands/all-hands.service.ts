import { Audit, permit, type Caller } from '@ribband/access';
import { CardKind } from '@ribband/crew';
import { Bus, Database, instantToLocal, isDay, refuse, YardClock } from '@ribband/platform';
import { Task, wordsOf } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { newPlace, PlaceEntity } from '../places/place.entity.js';
import { tellRoster } from '../roster-news.js';
import { laySpecial, specialToCome } from '../turnouts/special-turnouts.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { turnoutTimes } from '../turnouts/turnout-times.js';
import { refuseFar, yardDays } from '../turnouts/yard-days.js';
import { type NewRole, refuseStrange, saidRoles } from './said-roles.js';
import { type UsualDay, usualDays } from './usual-roles.js';

interface NewAllHands {
  taskId: string;
  title: string;
  on: string;
  startTime: string;
  endTime: string;
  roles: readonly NewRole[];
}

/** Days that take all hands, such as a launch: laid on in one step, with places by role. */
@Injectable()
export class AllHands {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
  ) {}

  /** The days as they are usually called, and the organisation's card for first aid; null where it keeps none. */
  async usual({ organisationId }: Caller): Promise<{ days: readonly UsualDay[]; firstAid: CardKind | null }> {
    const firstAid = await this.database.read.findOne(CardKind, {
      where: { organisationId, purpose: 'first-aid' },
      order: { id: 'ASC' },
    });
    return { days: usualDays, firstAid };
  }

  /** All-hands days that have not begun, in order of time. */
  async toBegin(organisationId: string, manager: EntityManager): Promise<TurnoutEntity[]> {
    const now = await this.clock.now(organisationId, manager);
    const days = await specialToCome(manager, organisationId, 'all-hands', now);
    return days.filter(({ startsAt }) => startsAt > now);
  }

  /** Lays an all-hands day on, with places by role on one piece of work; all of them stand open. */
  async layOn(caller: Caller, wanted: NewAllHands): Promise<TurnoutEntity> {
    permit(caller, 'coordinator', 'director');
    const { organisationId } = caller;
    const title = wordsOf(wanted.title, 'title', 80, 'What the day is called');
    const roles = saidRoles(wanted.roles);
    const { on, startTime, endTime } = wanted;
    if (!isDay(on))
      refuse('BAD_INPUT', `"${on}" is not a day.`, { field: 'on', remedy: 'A day such as 2027-10-16.' });
    return this.database.write(async (manager) => {
      const task = await workOf(manager, organisationId, wanted.taskId);
      await refuseStrange(manager, organisationId, roles);
      const days = await yardDays(manager, organisationId);
      if (days === null) refuse('NOT_FOUND', 'There is no haul-out yet.', { remedy: 'Import a yard first.' });
      const zone = days.timeZone;
      const now = await this.clock.now(organisationId, manager);
      refuseFar(on, days, instantToLocal(now, zone).day);
      const times = turnoutTimes(zone, { on, startTime, endTime });
      const [turnout] = await laySpecial(manager, organisationId, { kind: 'all-hands', note: title, now }, [
        { heldOn: on, startTime, endTime, ...times },
      ]);
      if (!turnout) throw new Error('The day was not laid on');
      const span = { organisationId, turnoutId: turnout.id, taskId: task.id, ...times };
      await manager.insert(
        PlaceEntity,
        roles.flatMap(({ count, ...asked }) =>
          Array.from({ length: count }, () => newPlace({ ...span, ...asked })),
        ),
      );
      await this.audit.note(manager, caller, 'layOnAllHands', turnout.id, {
        on,
        startTime,
        endTime,
        places: roles.reduce((sum, { count }) => sum + count, 0),
      });
      tellRoster(this.bus, manager, organisationId, [turnout.id]);
      return turnout;
    });
  }
}

async function workOf(manager: EntityManager, organisationId: string, taskId: string): Promise<Task> {
  const task = await manager.findOneBy(Task, { id: taskId, organisationId });
  if (!task || task.kind === 'elapsed' || task.kind === 'hold')
    return refuse('NOT_FOUND', 'There is no such work.', {
      field: 'taskId',
      remedy: 'Choose work that people do, such as the launch.',
    });
  if (task.droppedAt !== null)
    refuse('TASK_NOT_READY', `“${task.title}” was dropped from the scope.`, { field: 'taskId' });
  return task;
}
