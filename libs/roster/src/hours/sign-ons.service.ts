import { Audit, type Caller } from '@ribband/access';
import { FamilyNews, volunteerOf, YardDay } from '@ribband/crew';
import {
  addDays,
  Bus,
  Database,
  instantToLocal,
  localToInstant,
  newId,
  RealClock,
  refuse,
  YardClock,
} from '@ribband/platform';
import { OpeningGate, taskOf } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull, type EntityManager } from 'typeorm';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { noteArrival } from '../attendance/attendance.records.js';
import { tellRoster } from '../roster-news.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { HourEntryEntity } from './hour-entry.entity.js';
import { refuseLength, refuseStillOn, refuseToCome, whose } from './hour-rules.js';
import {
  endedAt,
  entriesThatCount,
  kindFor,
  openEntryOf,
  refuseClosedDay,
  refuseOverlap,
  yardNow,
  type YardNow,
} from './hour.records.js';
import { refuseStopped } from './refuse-stopped.js';
import { turnoutAt } from './turnout-at.js';

/** Who signs off those who have not done so when a turnout is closed. */
export const theRoll = 'the roll';

export interface NewSignOn {
  /** For whom, as coordinator; null for oneself. */
  volunteerId: string | null;
  taskId: string | null;
  /** Local time today since when; null for when they came if that is known, else now. */
  from: string | null;
}

/** Signing on to work and off again. */
@Injectable()
export class SignOns {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(YardClock) private readonly clock: YardClock,
    @Inject(RealClock) private readonly realClock: RealClock,
    @Inject(YardDay) private readonly yardDay: YardDay,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(Bus) private readonly bus: Bus,
    @Inject(FamilyNews) private readonly family: FamilyNews,
    @Inject(OpeningGate) private readonly openings: OpeningGate,
  ) {}

  /** Somebody begins to work: they themselves, or the coordinator for them. Named work asks its gates. */
  async on(caller: Caller, wanted: NewSignOn): Promise<HourEntryEntity> {
    const volunteerId = whose(caller, wanted.volunteerId);
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const yard = await yardNow(this.clock, this.yardDay, organisationId, manager);
      const person = await volunteerOf(manager, organisationId, volunteerId);
      const open = await openEntryOf(manager, organisationId, volunteerId);
      if (open && open.startsAt !== null) refuseStillOn(person.name, open.startsAt, yard.zone);
      if (wanted.taskId !== null) await taskOf(manager, organisationId, wanted.taskId, 'taskId');
      const from = wanted.from === null ? null : localToInstant(yard.today, wanted.from, yard.zone);
      const turnout = await turnoutAt(manager, organisationId, from ?? yard.now, volunteerId);
      const startsAt = from ?? (await this.sinceWhen(manager, volunteerId, turnout, yard));
      refuseToCome(startsAt, yard, 'from');
      const workedOn = instantToLocal(startsAt, yard.zone).day;
      if (workedOn !== yard.today)
        refuse('BAD_INPUT', 'Signing on is for today.', {
          field: 'from',
          remedy: 'The coordinator enters hours of earlier days.',
        });
      await refuseClosedDay(manager, organisationId, workedOn, 'from');
      if (wanted.taskId !== null) {
        const beginning = { volunteerId, taskId: wanted.taskId, turnout, startsAt };
        await refuseStopped(manager, this.openings, organisationId, beginning, yard);
      }
      const entry = this.entryOf(caller, {
        volunteerId,
        taskId: wanted.taskId,
        turnoutId: turnout?.id ?? null,
        kindId: (
          await kindFor(manager, organisationId, {
            volunteerId,
            taskId: wanted.taskId,
            turnoutId: turnout?.id ?? null,
          })
        ).id,
        workedOn,
        startsAt,
      });
      await refuseOverlap(manager, entry, person.name, yard.zone, { field: 'from' });
      await manager.insert(HourEntryEntity, entry);
      if (turnout) {
        const came = { turnoutId: turnout.id, volunteerId, arrivedAt: startsAt };
        const how = caller.volunteerId === volunteerId ? 'self' : 'ticked';
        const isNew = await noteArrival(manager, { organisationId, ...came, how, enteredBy: caller.name });
        if (isNew)
          await this.family.tell(manager, organisationId, {
            ...{ volunteerId, what: 'came', at: startsAt, key: turnout.id },
          });
      }
      // Who had signed off and signs on again has come back.
      if (!turnout || (await signedOffBefore(manager, entry)))
        await this.family.tell(manager, organisationId, {
          ...{ volunteerId, what: 'came', at: startsAt, key: entry.id },
        });
      await this.changed(manager, caller, 'signOn', entry);
      return entry;
    });
  }

  /** Somebody stops. @param to local time, of the next morning where it is before the start; null for now */
  async off(caller: Caller, entryId: string, to: string | null): Promise<HourEntryEntity> {
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const entry =
        (await entriesThatCount(manager, organisationId)
          .andWhere('entry.id = :entryId', { entryId })
          .getOne()) ??
        refuse('NOT_FOUND', 'There is no such entry.', { field: 'entryId', remedy: 'Read them again.' });
      whose(caller, entry.volunteerId);
      if (entry.startsAt === null || entry.minutes !== null)
        return refuse('CHANGED_MEANWHILE', 'This one is signed off already.', {
          field: 'entryId',
          remedy: 'Correct it, if it is wrong.',
          ...(entry.endedBy === null ? {} : { facts: { 'signed off by': entry.endedBy } }),
        });
      const yard = await yardNow(this.clock, this.yardDay, organisationId, manager);
      const person = await volunteerOf(manager, organisationId, entry.volunteerId);
      const endsAt = to === null ? yard.now : atTime(entry.startsAt, to, yard.zone);
      refuseToCome(endsAt, yard, 'to');
      refuseLength(entry.startsAt, endsAt, yard.zone, 'to');
      await refuseOverlap(manager, { ...entry, endsAt }, person.name, yard.zone, {
        field: 'to',
        except: entry.id,
      });
      const ended = await this.end(manager, entry, endsAt, caller.name);
      await this.family.tell(manager, organisationId, {
        ...{ volunteerId: entry.volunteerId, what: 'left', at: endsAt, key: entry.id },
        cameAs: [entry.id, ...(entry.turnoutId === null ? [] : [entry.turnoutId])],
      });
      await this.changed(manager, caller, 'signOff', ended);
      return ended;
    });
  }

  /**
   * The day's roll: whoever is still signed on at a turnout is signed off.
   * @param at when each person left, by id
   * @returns the sign-ons that it closed: ids of entries by person
   */
  async closeAtRoll(
    manager: EntityManager,
    turnout: Pick<TurnoutEntity, 'id' | 'organisationId'>,
    at: (volunteerId: string) => number,
  ): Promise<ReadonlyMap<string, string>> {
    const open = await entriesThatCount(manager, turnout.organisationId)
      .andWhere('entry.turnoutId = :turnoutId', { turnoutId: turnout.id })
      .andWhere('entry.minutes IS NULL')
      .getMany();
    for (const entry of open)
      await this.end(manager, entry, Math.max(entry.startsAt ?? 0, at(entry.volunteerId)), theRoll);
    return new Map(open.map(({ volunteerId, id }) => [volunteerId, id]));
  }

  private async end(
    manager: EntityManager,
    entry: HourEntryEntity,
    endsAt: number,
    endedBy: string,
  ): Promise<HourEntryEntity> {
    const ended = { endsAt, minutes: Math.round((endsAt - (entry.startsAt ?? endsAt)) / 60_000), endedBy };
    await manager.update(HourEntryEntity, { id: entry.id, endsAt: IsNull() }, ended);
    return { ...entry, ...ended };
  }

  /** When they came, where that is known and their first hours of the turnout are wanted. */
  private async sinceWhen(
    manager: EntityManager,
    volunteerId: string,
    turnout: TurnoutEntity | null,
    yard: YardNow,
  ): Promise<number> {
    if (!turnout) return yard.now;
    const came = await manager.findOneBy(AttendanceEntity, { turnoutId: turnout.id, volunteerId });
    if (!came || came.leftAt !== null || came.arrivedAt > yard.now) return yard.now;
    const earlier = await entriesThatCount(manager, turnout.organisationId)
      .andWhere('entry.volunteerId = :volunteerId', { volunteerId })
      .andWhere('entry.turnoutId = :turnoutId', { turnoutId: turnout.id })
      .getOne();
    return earlier ? yard.now : came.arrivedAt;
  }

  private entryOf(
    caller: Caller,
    about: Pick<HourEntryEntity, 'volunteerId' | 'taskId' | 'turnoutId' | 'kindId' | 'workedOn' | 'startsAt'>,
  ): HourEntryEntity {
    const id = newId('hours');
    return {
      id,
      rootId: id,
      organisationId: caller.organisationId,
      ...about,
      endsAt: null,
      minutes: null,
      way: caller.volunteerId === about.volunteerId ? 'self' : 'coordinator',
      note: null,
      enteredAt: this.realClock.now(),
      enteredBy: caller.name,
      endedBy: null,
      isVoid: false,
      correctsId: null,
      adjustsId: null,
      reason: null,
    };
  }

  private async changed(
    manager: EntityManager,
    caller: Caller,
    operation: string,
    entry: HourEntryEntity,
  ): Promise<void> {
    const { volunteerId, taskId, minutes } = entry;
    await this.audit.note(manager, caller, operation, entry.id, { volunteerId, taskId, minutes });
    tellRoster(this.bus, manager, caller.organisationId, entry.turnoutId === null ? [] : [entry.turnoutId]);
  }
}

/** Whether somebody has signed off at the turnout of an entry by hand, before the entry. */
async function signedOffBefore(manager: EntityManager, entry: HourEntryEntity): Promise<boolean> {
  const { organisationId, turnoutId, volunteerId, id } = entry;
  if (turnoutId === null) return false;
  const ended = await endedAt(manager, organisationId, turnoutId);
  return ended.some((one) => one.volunteerId === volunteerId && one.id !== id);
}

/** The first instant with a local time at or after another. */
function atTime(from: number, time: string, zone: string): number {
  const { day, time: started } = instantToLocal(from, zone);
  return localToInstant(time < started ? addDays(day, 1) : day, time, zone);
}
