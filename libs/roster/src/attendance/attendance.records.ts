import { newId } from '@ribband/platform';
import { IsNull, Not, type EntityManager } from 'typeorm';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { AttendanceEntity, type AttendanceWay } from './attendance.entity.js';

/**
 * Notes that somebody is at the yard at a turnout; who was noted already and had left is there again. Who was known from
 * paper alone and is seen now does not hang on that paper any more.
 * @returns whether they were not known to be there
 */
export async function noteArrival(
  manager: EntityManager,
  came: Pick<AttendanceEntity, 'organisationId' | 'turnoutId' | 'volunteerId' | 'arrivedAt' | 'enteredBy'> & {
    how: AttendanceWay;
  },
): Promise<boolean> {
  const { turnoutId, volunteerId } = came;
  const there = await manager.findOneBy(AttendanceEntity, { turnoutId, volunteerId });
  if (!there) {
    await manager.insert(AttendanceEntity, { id: newId('attendance'), ...came, leftAt: null });
    return true;
  }
  if (there.how === 'paper' && came.how !== 'paper')
    await manager.update(AttendanceEntity, { id: there.id }, { how: came.how });
  if (there.leftAt === null || came.arrivedAt < there.leftAt) return false;
  await manager.update(AttendanceEntity, { id: there.id }, { leftAt: null });
  return true;
}

/**
 * Takes out that somebody was there, where only paper said so and no roll has accounted for them.
 * @returns whether it did
 */
export async function takeOutArrival(
  manager: EntityManager,
  { turnoutId, volunteerId }: Pick<AttendanceEntity, 'turnoutId' | 'volunteerId'>,
): Promise<boolean> {
  const known = { turnoutId, volunteerId, how: 'paper' as const, leftAt: IsNull() };
  const { affected } = await manager.delete(AttendanceEntity, known);
  return (affected ?? 0) > 0;
}

/** Whether somebody came to a turnout and was accounted for. */
export const leftAlready = (
  manager: EntityManager,
  turnoutId: string,
  volunteerId: string,
): Promise<boolean> => manager.existsBy(AttendanceEntity, { turnoutId, volunteerId, leftAt: Not(IsNull()) });

/** When somebody left who was accounted for, before it was put right and after; instants by the yard's clock. */
export interface MovedLeaving {
  attendanceId: string;
  was: number;
  now: number;
}

/**
 * Puts right when somebody left who was accounted for at a turnout's end. Who is still there stays so until the roll.
 * @param isEarlier whether an earlier time counts as well
 * @returns what it changed; null for who is still there or never came, and where the time known stands
 */
export async function noteLeftAfterAll(
  manager: EntityManager,
  {
    turnoutId,
    volunteerId,
    leftAt,
  }: Pick<AttendanceEntity, 'turnoutId' | 'volunteerId'> & { leftAt: number },
  isEarlier: (known: number) => boolean,
): Promise<MovedLeaving | null> {
  const there = await attendanceAt(manager, turnoutId, volunteerId);
  if (!there || there.leftAt === null || leftAt < there.arrivedAt) return null;
  if (leftAt === there.leftAt || (leftAt < there.leftAt && !isEarlier(there.leftAt))) return null;
  await manager.update(AttendanceEntity, { id: there.id }, { leftAt });
  return { attendanceId: there.id, was: there.leftAt, now: leftAt };
}

/** When a roll made at an instant takes those to have left who were still there: when the turnout ended, or before. */
export const leftByRoll = (
  { startsAt, endsAt }: Pick<TurnoutEntity, 'startsAt' | 'endsAt'>,
  madeAt: number,
): number => Math.max(startsAt, Math.min(madeAt, endsAt));

/** Whether somebody was at a turnout, and until when; null where not. */
export const attendanceAt = (
  manager: EntityManager,
  turnoutId: string,
  volunteerId: string,
): Promise<AttendanceEntity | null> => manager.findOneBy(AttendanceEntity, { turnoutId, volunteerId });

/** Who has signed in at a turnout and not out again; null where nobody keeps a roll. */
export async function signedInAt(
  manager: EntityManager,
  organisationId: string,
  turnoutId: string,
): Promise<string[] | null> {
  const came = await attendanceOf(manager, organisationId, turnoutId);
  return came.length === 0
    ? null
    : came.flatMap(({ leftAt, volunteerId }) => (leftAt === null ? [volunteerId] : []));
}

/** Who came to a turnout, in the order in which they came. */
export const attendanceOf = (
  manager: EntityManager,
  organisationId: string,
  turnoutId: string,
): Promise<AttendanceEntity[]> =>
  manager.find(AttendanceEntity, {
    where: { organisationId, turnoutId },
    order: { arrivedAt: 'ASC', id: 'ASC' },
  });
