import { Audit, permit, type Caller } from '@ribband/access';
import { highestLevel, Skill } from '@ribband/crew';
import { Bus, Database, instantToLocal, isDay, refuse, Revisions, YardClock } from '@ribband/platform';
import { Task } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, Not, type EntityManager } from 'typeorm';
import { RosterMessages } from '../news/roster-messages.js';
import { newPlace, PlaceEntity } from '../places/place.entity.js';
import { tellRoster } from '../roster-news.js';
import { callOff, saidWhy } from '../turnouts/call-off.js';
import { laySpecial, specialToCome } from '../turnouts/special-turnouts.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { refuseFar, yardDays } from '../turnouts/yard-days.js';
import { layWatches } from './lay-watches.js';

export interface NewWatches {
  taskId: string;
  on: string;
  startTime: string;
  hours: number;
  hoursEach: number;
  people: number;
  skillId: string;
  level: number;
}

/** Two weeks. */
const mostHours = 336;
/** On all watches to come: two weeks of four-hour watches with six on each. */
const mostPlaces = 504;

/** Watches over her afloat: laid on in one step, called off in one step. */
@Injectable()
export class Watches {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(Revisions) private readonly revisions: Revisions,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(RosterMessages) private readonly messages: RosterMessages,
  ) {}

  /** Watches that are not over, in order of time. */
  async toCome(
    organisationId: string,
    manager: EntityManager = this.database.read,
  ): Promise<TurnoutEntity[]> {
    const now = await this.clock.now(organisationId, manager);
    return specialToCome(manager, organisationId, 'watch', now);
  }

  /** Watches that have not begun, in order of time. */
  async toBegin(organisationId: string, manager: EntityManager): Promise<TurnoutEntity[]> {
    const now = await this.clock.now(organisationId, manager);
    return (await this.toCome(organisationId, manager)).filter(({ startsAt }) => startsAt > now);
  }

  /** Lays watches on, each with a place for the skill and places for further hands; all of them stand open. */
  async layOn(caller: Caller, wanted: NewWatches): Promise<TurnoutEntity[]> {
    permit(caller, 'coordinator', 'director');
    const { organisationId } = caller;
    refuseNumbers(wanted);
    return this.database.write(async (manager) => {
      const task = await manager.findOneBy(Task, { id: wanted.taskId, organisationId });
      if (!task || task.kind !== 'work')
        refuse('NOT_FOUND', 'There is no such work.', {
          field: 'taskId',
          remedy: 'Choose work of the vessel that people do, such as the float watch.',
        });
      if (task.droppedAt !== null)
        refuse('TASK_NOT_READY', `“${task.title}” was dropped from the scope.`, { field: 'taskId' });
      if (!(await manager.existsBy(Skill, { id: wanted.skillId, organisationId })))
        refuse('NOT_FOUND', 'There is no such skill.', {
          field: 'skillId',
          remedy: 'Choose one of the crew’s.',
        });
      const days = await yardDays(manager, organisationId);
      if (days === null) refuse('NOT_FOUND', 'There is no haul-out yet.', { remedy: 'Import a yard first.' });
      const zone = days.timeZone;
      const now = await this.clock.now(organisationId, manager);
      const { on, startTime } = wanted;
      refuseFar(on, days, instantToLocal(now, zone).day);
      const dated = layWatches({ on, startTime, all: wanted.hours * 60, each: wanted.hoursEach * 60 }, zone);
      await this.refuseMany(manager, organisationId, dated.length * wanted.people);
      const rows = await laySpecial(manager, organisationId, { kind: 'watch', note: null, now }, dated);
      for (const { id: turnoutId, startsAt, endsAt } of rows) {
        const span = { organisationId, turnoutId, taskId: task.id, startsAt, endsAt };
        const skilled = { skillId: wanted.skillId, level: wanted.level };
        const hands = Array.from({ length: wanted.people - 1 }, () => newPlace(span));
        await manager.insert(PlaceEntity, [newPlace({ ...span, ...skilled }), ...hands]);
      }
      const { hours, hoursEach, people } = wanted;
      await this.audit.note(manager, caller, 'layOnWatches', task.id, {
        on,
        startTime,
        hours,
        hoursEach,
        people,
      });
      tellRoster(this.bus, manager, organisationId, []);
      return rows;
    });
  }

  /** @throws RefusalError where the places on watches to come would be more than can be rostered at once */
  private async refuseMany(manager: EntityManager, organisationId: string, places: number): Promise<void> {
    const begin = await this.toBegin(organisationId, manager);
    const turnoutId = In(begin.map(({ id }) => id));
    const laidOn = await manager.countBy(PlaceEntity, { organisationId, turnoutId, state: Not('left') });
    if (laidOn + places > mostPlaces)
      refuse(
        'BAD_INPUT',
        `That would be ${laidOn + places} places on watches to come; ${mostPlaces} is most.`,
        {
          field: 'people',
          remedy: 'Lay on fewer days at a time, longer watches, or fewer people on each.',
        },
      );
  }

  /** Calls all watches off that have not begun; whoever has a place on one is told. */
  async callOffAll(caller: Caller, reason: string): Promise<TurnoutEntity[]> {
    permit(caller, 'coordinator', 'director');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const cancelReason = saidWhy(reason);
      const now = await this.clock.now(organisationId, manager);
      const watches = await this.toBegin(organisationId, manager);
      if (watches.length === 0)
        refuse('NOT_FOUND', 'No watch is to come.', { remedy: 'There is nothing to call off.' });
      const left: TurnoutEntity[] = [];
      for (const watch of watches) left.push(await callOff(manager, this.messages, watch, cancelReason, now));
      await this.audit.note(manager, caller, 'callOffWatches', left[0]?.id ?? '', { watches: left.length });
      // Whoever had said yes to one is there for other work again.
      await this.revisions.requestPlan(manager, organisationId, 'watches were called off');
      tellRoster(this.bus, manager, organisationId, []);
      return left;
    });
  }
}

function refuseNumbers({ on, hours, hoursEach, people, level }: NewWatches): void {
  if (!isDay(on))
    refuse('BAD_INPUT', `"${on}" is not a day.`, { field: 'on', remedy: 'A day such as 2027-10-16.' });
  const between = (field: string, what: string, value: number, least: number, most: number): void => {
    if (value < least || value > most)
      refuse('BAD_INPUT', `${what}, not ${value}.`, { field, remedy: `From ${least} to ${most}.` });
  };
  between('hoursEach', 'A watch lasts 2 to 8 hours', hoursEach, 2, 8);
  between('hours', `She is watched for ${hoursEach} to ${mostHours} hours`, hours, hoursEach, mostHours);
  between('people', 'Two to six keep a watch: nobody watches alone', people, 2, 6);
  between('level', 'A level is 1 to 4', level, 1, highestLevel);
}
