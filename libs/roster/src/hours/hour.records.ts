import type { YardDay } from '@ribband/crew';
import { instantToLocal, newId, refuse } from '@ribband/platform';
import {
  In,
  IsNull,
  LessThanOrEqual,
  MoreThanOrEqual,
  Not,
  type EntityManager,
  type SelectQueryBuilder,
} from 'typeorm';
import { PlaceEntity } from '../places/place.entity.js';
import { HourEntryEntity } from './hour-entry.entity.js';
import { HourPeriodEntity } from './hour-period.entity.js';
import { generalWork, WorkKindEntity } from './work-kind.entity.js';

/** The entries of an organisation that count: not corrected by a later one, not taken out. */
export const entriesThatCount = (
  manager: EntityManager,
  organisationId: string,
): SelectQueryBuilder<HourEntryEntity> =>
  manager
    .createQueryBuilder(HourEntryEntity, 'entry')
    .where('entry.organisationId = :organisationId', { organisationId })
    .andWhere('entry.isVoid = :isVoid', { isVoid: false })
    .andWhere('NOT EXISTS (SELECT 1 FROM "hour_entry" "later" WHERE "later"."correctsId" = "entry"."id")');

/** Those of some days, in order of time. */
export const entriesBetween = (
  manager: EntityManager,
  organisationId: string,
  from: string,
  to: string,
): SelectQueryBuilder<HourEntryEntity> =>
  entriesThatCount(manager, organisationId)
    .andWhere('entry.workedOn BETWEEN :from AND :to', { from, to })
    .orderBy('entry.workedOn')
    .addOrderBy('entry.startsAt')
    .addOrderBy('entry.id');

/** The entry by which somebody is signed on just now; null when they are not. */
export const openEntryOf = (
  manager: EntityManager,
  organisationId: string,
  volunteerId: string,
): Promise<HourEntryEntity | null> =>
  entriesThatCount(manager, organisationId)
    .andWhere('entry.volunteerId = :volunteerId', { volunteerId })
    .andWhere('entry.minutes IS NULL')
    .getOne();

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

/** @throws RefusalError PERIOD_CLOSED when the day lies in a closed period */
export async function refuseClosedDay(
  manager: EntityManager,
  organisationId: string,
  on: string,
  field: string,
): Promise<void> {
  const closed = await periodOf(manager, organisationId, on);
  if (closed)
    refuse('PERIOD_CLOSED', `The hours from ${closed.fromOn} to ${closed.toOn} are closed.`, {
      field,
      remedy: 'What is wrong in them is put right by an adjustment, dated on a day that is open.',
      facts: { 'closed by': closed.closedBy },
    });
}

/** The closed period that a day lies in. */
export const periodOf = (
  manager: EntityManager,
  organisationId: string,
  on: string,
): Promise<HourPeriodEntity | null> =>
  manager.findOneBy(HourPeriodEntity, {
    organisationId,
    fromOn: LessThanOrEqual(on),
    toOn: MoreThanOrEqual(on),
  });

/**
 * @param except id of the entry that is being replaced
 * @throws RefusalError HOURS_OVERLAP when the person has an entry at that time already
 */
export async function refuseOverlap(
  manager: EntityManager,
  entry: Pick<HourEntryEntity, 'organisationId' | 'volunteerId' | 'startsAt' | 'endsAt'>,
  who: string,
  zone: string,
  at: { field: string; except?: string },
): Promise<void> {
  const { organisationId, volunteerId, startsAt, endsAt } = entry;
  // One that has no end yet goes on; an instant has no length, so it must lie inside.
  const other = await entriesThatCount(manager, organisationId)
    .andWhere('entry.volunteerId = :volunteerId', { volunteerId })
    .andWhere('entry.id <> :except', { except: at.except ?? '' })
    .andWhere('entry.startsAt < :end', { end: endsAt ?? Number.MAX_SAFE_INTEGER })
    .andWhere('(entry.endsAt IS NULL OR entry.endsAt > :start)', { start: startsAt })
    .orderBy('entry.startsAt')
    .getOne();
  if (!other || other.startsAt === null) return;
  const from = instantToLocal(other.startsAt, zone);
  const to = other.endsAt === null ? null : instantToLocal(other.endsAt, zone).time;
  refuse(
    'HOURS_OVERLAP',
    to === null
      ? `${who} is signed on since ${from.time} on ${from.day}.`
      : `${who} has hours from ${from.time} to ${to} on ${from.day} already.`,
    {
      field: at.field,
      remedy: to === null ? 'Sign off there first.' : 'Choose a time beside those, or correct them.',
    },
  );
}

/** @throws RefusalError NOT_FOUND */
export const kindOf = async (
  manager: EntityManager,
  organisationId: string,
  id: string,
  field: string,
): Promise<WorkKindEntity> =>
  (await manager.findOneBy(WorkKindEntity, { organisationId, id })) ??
  refuse('NOT_FOUND', 'There is no such kind of work.', { field, remedy: 'Choose one from the list.' });

/**
 * Of which kind hours are when nobody says: that of the skill which the person's seat on the task asks for, where
 * there is a kind for it, else general work.
 */
export async function kindFor(
  manager: EntityManager,
  organisationId: string,
  at: { volunteerId: string; taskId: string | null; turnoutId: string | null },
): Promise<WorkKindEntity> {
  if (at.taskId !== null && at.turnoutId !== null) {
    const seats = await manager.findBy(PlaceEntity, {
      organisationId,
      volunteerId: at.volunteerId,
      taskId: at.taskId,
      turnoutId: at.turnoutId,
      state: In(['posted', 'taken']),
      skillId: Not(IsNull()),
    });
    const skillIds = seats.flatMap((seat) => seat.skillId ?? []);
    const ofSkill =
      skillIds.length > 0
        ? await manager.findOne(WorkKindEntity, {
            where: { organisationId, skillId: In(skillIds) },
            order: { id: 'ASC' },
          })
        : null;
    if (ofSkill) return ofSkill;
  }
  return ensureGeneral(manager, organisationId);
}

/** General work, which each yard has from its first entry on. */
export async function ensureGeneral(manager: EntityManager, organisationId: string): Promise<WorkKindEntity> {
  const there = await manager.findOneBy(WorkKindEntity, { organisationId, name: generalWork });
  if (there) return there;
  const kind = { id: newId('workkind'), organisationId, version: 1, name: generalWork, skillId: null };
  await manager.insert(WorkKindEntity, kind);
  return kind;
}

/** The yard's zone, day and minute, read once for a use case. */
export interface YardNow {
  zone: string;
  today: string;
  now: number;
}

export async function yardNow(
  clock: { now(organisationId: string, manager: EntityManager): Promise<number> },
  yardDay: YardDay,
  organisationId: string,
  manager: EntityManager,
): Promise<YardNow> {
  const zone = await yardDay.zone(organisationId, manager);
  const now = await clock.now(organisationId, manager);
  return { zone, now, today: instantToLocal(now, zone).day };
}
