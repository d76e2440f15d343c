import { Audit, permit, type Caller } from '@ribband/access';
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
import { taskOf } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, IsNull, type EntityManager } from 'typeorm';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { noteArrival } from '../attendance/attendance.records.js';
import { PlaceEntity } from '../places/place.entity.js';
import { tellRoster } from '../roster-news.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { HourEntryEntity } from './hour-entry.entity.js';
import {
  entriesThatCount,
  kindFor,
  openEntryOf,
  refuseClosedDay,
  refuseOverlap,
  yardNow,
  type YardNow,
} from './hour.records.js';

/** Who signs off those who have not done so when a turnout is closed. */
export const theRoll = 'the roll';
/** Nobody works longer at a stretch: a sign-off that was forgotten says when it was. */
const longestMinutes = 16 * 60;
/** How long before and after its hours a turnout still is where somebody signs on. */
const aroundMillis = 3 * 3_600_000;

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
  ) {}

  /** Somebody begins to work: they themselves, or the coordinator for them. */
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

/** Hours at a turnout that somebody has ended by signing off. */
export function endedAt(
  manager: EntityManager,
  organisationId: string,
  turnoutId: string,
): Promise<HourEntryEntity[]> {
  return entriesThatCount(manager, organisationId)
    .andWhere('entry.turnoutId = :turnoutId', { turnoutId })
    .andWhere('entry.minutes IS NOT NULL')
    .andWhere("entry.way IN ('self', 'coordinator')")
    .getMany();
}

/** Oneself, or whom the coordinator enters for. @throws RefusalError NOT_PERMITTED */
export function whose(caller: Caller, volunteerId: string | null): string {
  if (volunteerId !== null && volunteerId !== caller.volunteerId) {
    permit(caller, 'director', 'coordinator');
    return volunteerId;
  }
  return (
    caller.volunteerId ??
    refuse('NOT_PERMITTED', 'Your account is not tied to anybody in the crew.', {
      field: 'volunteerId',
      remedy: 'Say for whom, or ask the director to tie your account to your entry.',
    })
  );
}

/** The first instant with a local time at or after another. */
function atTime(from: number, time: string, zone: string): number {
  const { day, time: started } = instantToLocal(from, zone);
  return localToInstant(time < started ? addDays(day, 1) : day, time, zone);
}

/** @throws RefusalError BAD_INPUT for a time that is still to come */
export function refuseToCome(at: number, { now, zone }: YardNow, field: string): void {
  if (at <= now) return;
  const { time, day } = instantToLocal(at, zone);
  refuse('BAD_INPUT', `${time} on ${day} is still to come.`, {
    field,
    remedy: `It is ${instantToLocal(now, zone).time} at the yard: hours are entered when they are worked.`,
  });
}

/** @throws RefusalError BAD_INPUT for hours that end before they start, or go on for longer than anybody works */
export function refuseLength(startsAt: number, endsAt: number, zone: string, field: string): void {
  const from = instantToLocal(startsAt, zone);
  if (endsAt - startsAt < 60_000)
    refuse('BAD_INPUT', `These hours began at ${from.time} on ${from.day} and would be over at once.`, {
      field,
      remedy: 'Say a later time, or take the entry out if it was a mistake.',
    });
  if (endsAt - startsAt > longestMinutes * 60_000)
    refuse('BAD_INPUT', `That would be more than ${longestMinutes / 60} hours at a stretch.`, {
      field,
      remedy: `They began at ${from.time} on ${from.day}: say when they ended.`,
    });
}

function refuseStillOn(name: string, startsAt: number, zone: string): never {
  const { day, time } = instantToLocal(startsAt, zone);
  return refuse('HOURS_OVERLAP', `${name} is signed on since ${time} on ${day}.`, {
    field: 'volunteerId',
    remedy: 'Sign off there first; where it was forgotten, say when it was.',
  });
}

/**
 * The turnout at which somebody is at an instant: the nearest one that is not called off, and where a watch goes on
 * meanwhile the one at which they have a place.
 */
export async function turnoutAt(
  manager: EntityManager,
  organisationId: string,
  at: number,
  volunteerId: string,
): Promise<TurnoutEntity | null> {
  const near = await manager
    .createQueryBuilder(TurnoutEntity, 'turnout')
    .where('turnout.organisationId = :organisationId', { organisationId })
    .andWhere('turnout.cancelledAt IS NULL')
    .andWhere('turnout.startsAt <= :latest', { latest: at + aroundMillis })
    .andWhere('turnout.endsAt >= :earliest', { earliest: at - aroundMillis })
    .orderBy('turnout.startsAt')
    .getMany();
  const distance = (turnout: TurnoutEntity) => Math.max(0, turnout.startsAt - at, at - turnout.endsAt);
  const places = await manager.findBy(PlaceEntity, {
    volunteerId,
    turnoutId: In(near.map(({ id }) => id)),
    state: In(['posted', 'taken']),
  });
  const held = new Set(places.map(({ turnoutId }) => turnoutId));
  // A usual turnout before a watch at which one has no place.
  const strange = ({ id, kind }: TurnoutEntity) => (held.has(id) ? 0 : kind === null ? 1 : 2);
  return near.sort((a, b) => distance(a) - distance(b) || strange(a) - strange(b))[0] ?? null;
}
