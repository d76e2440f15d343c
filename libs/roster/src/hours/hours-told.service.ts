import { permit, permitOwn, type Caller } from '@ribband/access';
import { Volunteer } from '@ribband/crew';
import { Database, instantToLocal, refuse } from '@ribband/platform';
import { haulOutInForce } from '@ribband/repair';
import { Inject, Injectable } from '@nestjs/common';
import { In, type EntityManager } from 'typeorm';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import { PlaceEntity } from '../places/place.entity.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { HourClaimEntity } from './grant-report.entity.js';
import { HourEntryEntity } from './hour-entry.entity.js';
import { entriesBetween, entriesThatCount, openEntryOf } from './hour.records.js';
import { refuseBackwards } from './hour-rules.js';
import { HourPeriodEntity } from './hour-period.entity.js';

/** An entry with what stands beside it. */
export interface ToldEntry extends HourEntryEntity {
  isClosed: boolean;
  /** Earlier rows that it corrects, newest first. */
  before: HourEntryEntity[];
  /** The grant that it counts for; null for none, and to volunteers. */
  claimedBy: string | null;
}

/** A line of the paper form, filled in with what is known. */
export interface SheetLine {
  volunteerId: string;
  name: string;
  taskId: string | null;
  from: string;
  to: string;
  came: boolean;
  /** Whether hours of this turnout are in the book already. */
  hasHours: boolean;
}

const mostEntries = 1000;

/** What is read out of the hours book. */
@Injectable()
export class HoursTold {
  constructor(@Inject(Database) private readonly database: Database) {}

  /** The entry by which the caller is signed on. */
  async openOf(caller: Caller): Promise<ToldEntry | null> {
    const { organisationId, volunteerId } = caller;
    if (volunteerId === null) return null;
    const open = await openEntryOf(this.database.read, organisationId, volunteerId);
    return open && ((await this.tell(this.database.read, caller, [open]))[0] ?? null);
  }

  /** Whoever is signed on just now, in order of time. */
  async allOpen(caller: Caller): Promise<ToldEntry[]> {
    permit(caller, 'director', 'coordinator', 'shipwright');
    const rows = await entriesThatCount(this.database.read, caller.organisationId)
      .andWhere('entry.minutes IS NULL')
      .orderBy('entry.startsAt')
      .limit(200)
      .getMany();
    return this.tell(this.database.read, caller, rows);
  }

  /**
   * Entries of some days that count, newest first; the newest 1,000.
   * @param named null for everybody's to who may read them, else for one's own
   */
  async between(caller: Caller, named: string | null, from: string, to: string): Promise<ToldEntry[]> {
    const readsAll = caller.role === 'director' || caller.role === 'coordinator';
    const volunteerId = named ?? (readsAll ? null : caller.volunteerId);
    permitOwn(caller, volunteerId ?? '', 'director', 'coordinator');
    refuseBackwards(from, to);
    return this.database.snapshot(async (manager) => {
      const query = entriesBetween(manager, caller.organisationId, from, to);
      if (volunteerId !== null) query.andWhere('entry.volunteerId = :volunteerId', { volunteerId });
      const rows = await query
        .orderBy('entry.workedOn', 'DESC')
        .addOrderBy('entry.startsAt', 'DESC')
        .addOrderBy('entry.id', 'DESC')
        .limit(mostEntries)
        .getMany();
      return this.tell(manager, caller, rows);
    });
  }

  async tell(
    manager: EntityManager,
    caller: Caller,
    entries: readonly HourEntryEntity[],
  ): Promise<ToldEntry[]> {
    const { organisationId } = caller;
    const roots = [...new Set(entries.map((entry) => entry.rootId))];
    const corrected = entries.some((entry) => entry.correctsId !== null)
      ? await manager.find(HourEntryEntity, { where: { rootId: In(roots) }, order: { id: 'DESC' } })
      : [];
    const closed = await manager.findBy(HourPeriodEntity, { organisationId });
    const claims =
      caller.role === 'volunteer' ? [] : await manager.findBy(HourClaimEntity, { entryId: In(roots) });
    const claimedBy = new Map(claims.map((claim) => [claim.entryId, claim.grantId]));
    return entries.map((entry) => ({
      ...entry,
      isClosed: closed.some(({ fromOn, toOn }) => fromOn <= entry.workedOn && entry.workedOn <= toOn),
      before: corrected.filter((other) => other.rootId === entry.rootId && other.id < entry.id),
      claimedBy: claimedBy.get(entry.rootId) ?? null,
    }));
  }

  /** The paper form of a turnout, filled in with who came or was expected, on what and when. */
  async sheet(caller: Caller, turnoutId: string): Promise<SheetLine[]> {
    permit(caller, 'director', 'coordinator');
    const { organisationId } = caller;
    return this.database.snapshot(async (manager) => {
      const turnout =
        (await manager.findOneBy(TurnoutEntity, { organisationId, id: turnoutId })) ??
        refuse('NOT_FOUND', 'There is no such turnout.', { field: 'turnoutId' });
      const zone = (await haulOutInForce(manager, organisationId))?.timeZone ?? 'UTC';
      const time = (at: number) => instantToLocal(at, zone).time;
      const came = await manager.findBy(AttendanceEntity, { turnoutId });
      const places = await manager.find(PlaceEntity, {
        where: { turnoutId, state: In(['posted', 'taken']) },
        order: { startsAt: 'ASC' },
      });
      const booked = new Set(
        (
          await entriesThatCount(manager, organisationId)
            .andWhere('entry.turnoutId = :turnoutId', { turnoutId })
            .getMany()
        ).map((entry) => entry.volunteerId),
      );
      const ids = [...came, ...places].flatMap(({ volunteerId }) => volunteerId ?? []);
      const people = await manager.find(Volunteer, {
        where: { organisationId, id: In([...new Set(ids)]) },
        order: { name: 'ASC' },
      });
      return people.map((person): SheetLine => {
        const there = came.find((one) => one.volunteerId === person.id);
        const place = places.find((one) => one.volunteerId === person.id);
        return {
          volunteerId: person.id,
          name: person.name,
          taskId: place?.taskId ?? null,
          from: there ? time(there.arrivedAt) : turnout.startTime,
          to: time(there?.leftAt ?? turnout.endsAt),
          came: there !== undefined,
          hasHours: booked.has(person.id),
        };
      });
    });
  }
}
