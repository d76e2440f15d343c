import type { FamilyNews } from '@ribband/crew';
import { IsNull, MoreThanOrEqual, Not, type EntityManager } from 'typeorm';
import { AttendanceEntity } from '../attendance/attendance.entity.js';
import {
  attendanceAt,
  leftByRoll,
  type MovedLeaving,
  noteLeftAfterAll,
  takeOutArrival,
} from '../attendance/attendance.records.js';
import { ClosingRoundEntity } from '../safety/closing-round.entity.js';
import { TurnoutEntity } from '../turnouts/turnout.entity.js';
import { entriesThatCount } from './hour.records.js';
import { HourEntryEntity } from './hour-entry.entity.js';

type Told = Pick<FamilyNews, 'tell' | 'leftAfterAll' | 'leftByMistake'>;
type Stay = Pick<HourEntryEntity, 'organisationId' | 'volunteerId' | 'turnoutId' | 'workedOn'>;

/**
 * Of everybody on a sheet: the last hours that they have at a turnout say when they left, where a roll or a sheet before
 * said earlier.
 * @returns what it moved of what a roll had closed
 */
export async function sheetSaysLeft(
  manager: EntityManager,
  family: Told,
  entered: readonly HourEntryEntity[],
): Promise<MovedLeaving[]> {
  const seen = new Map(entered.map((one) => [`${one.turnoutId ?? ''} ${one.volunteerId}`, one]));
  const moved: MovedLeaving[] = [];
  for (const one of seen.values()) {
    const { turnoutId, volunteerId } = one;
    if (turnoutId === null) continue;
    const { isOn, endedAt } = await lastOf(manager, one);
    if (isOn || endedAt === null) continue;
    // What a roll saw last stands against a sheet that ends before it.
    const move = await noteLeftAfterAll(manager, { turnoutId, volunteerId, leftAt: endedAt }, () => false);
    if (move) moved.push(move);
    await tellLeft(manager, family, one, endedAt);
  }
  return moved;
}

/** What a correction did beside the hours themselves. */
export interface Corrected {
  moved: MovedLeaving[];
  /** Nothing says any more that they were at the turnout at all. */
  neverCame: boolean;
}

/**
 * Hours that were wrong and said when somebody left: those that they have now say it, or nothing does any more. While
 * somebody is signed on, their leaving is still to come.
 * @param mayMove whether this may move what a roll closed or asks for: a volunteer's word on their own hours may not
 */
export async function correctionSaysLeft(
  manager: EntityManager,
  family: Told,
  wrong: HourEntryEntity,
  right: HourEntryEntity,
  mayMove: boolean,
): Promise<Corrected> {
  const { organisationId, turnoutId, volunteerId, rootId } = wrong;
  const { isOn, endedAt } = await lastOf(manager, wrong);
  if (isOn) return { moved: [], neverCame: false };
  // A correction that ends open hours is a sign-off.
  if (wrong.endsAt === null && !right.isVoid && right.endsAt === endedAt && endedAt !== null)
    await family.tell(manager, organisationId, {
      ...{ volunteerId, what: 'left', at: endedAt, key: rootId },
      cameAs: [rootId, ...(turnoutId === null ? [] : [turnoutId])],
    });
  const move = mayMove ? await moveRoll(manager, wrong, endedAt) : null;
  const there = turnoutId === null ? null : await attendanceAt(manager, turnoutId, volunteerId);
  // Who is known to have come from paper alone was perhaps never there; of everybody else the roll knows that they left.
  const leftAt = endedAt ?? (there?.how === 'paper' ? null : (there?.leftAt ?? null));
  const neverCame =
    mayMove &&
    endedAt === null &&
    turnoutId !== null &&
    (await takeOutArrival(manager, { turnoutId, volunteerId }));
  if (leftAt !== null) await tellLeft(manager, family, wrong, leftAt);
  else if (wrong.endsAt !== null)
    await family.leftByMistake(manager, organisationId, {
      ...{ volunteerId, at: wrong.endsAt, keys: await keysOf(manager, wrong), neverCame },
    });
  return { moved: move ? [move] : [], neverCame };
}

/** Where a roll's record rests on the wrong hours, it goes by the last that are left; where none are, by the roll itself. */
async function moveRoll(
  manager: EntityManager,
  { turnoutId, volunteerId, endsAt }: HourEntryEntity,
  endedAt: number | null,
): Promise<MovedLeaving | null> {
  if (turnoutId === null) return null;
  const leftAt = endedAt ?? (await rollSaw(manager, turnoutId, volunteerId));
  return leftAt === null
    ? null
    : noteLeftAfterAll(manager, { turnoutId, volunteerId, leftAt }, (known) => known === endsAt);
}

async function rollSaw(
  manager: EntityManager,
  turnoutId: string,
  volunteerId: string,
): Promise<number | null> {
  const round = await manager.findOneBy(ClosingRoundEntity, { turnoutId });
  const there = await attendanceAt(manager, turnoutId, volunteerId);
  if (!round || !there) return null;
  const turnout = await manager.findOneByOrFail(TurnoutEntity, { id: turnoutId });
  return Math.max(there.arrivedAt, leftByRoll(turnout, round.closedAt));
}

/** Parents who were told another time are told this one; but what a roll saw and they were told stands. */
async function tellLeft(manager: EntityManager, family: Told, stay: Stay, at: number): Promise<void> {
  const { organisationId, turnoutId, volunteerId } = stay;
  const there = turnoutId === null ? null : await attendanceAt(manager, turnoutId, volunteerId);
  await family.leftAfterAll(manager, organisationId, {
    ...{ volunteerId, at, keys: await keysOf(manager, stay) },
    standing: there?.leftAt ?? null,
    isBack: await isBack(manager, stay, at),
  });
}

/** Whether somebody came again after a stay: to another turnout, or signed on. */
async function isBack(
  manager: EntityManager,
  { organisationId, turnoutId, volunteerId }: Stay,
  at: number,
): Promise<boolean> {
  const later = await entriesThatCount(manager, organisationId)
    .andWhere('entry.volunteerId = :volunteerId', { volunteerId })
    .andWhere('entry.startsAt >= :at', { at })
    .getExists();
  const elsewhere = turnoutId === null ? {} : { turnoutId: Not(turnoutId) };
  return (
    later ||
    manager.existsBy(AttendanceEntity, {
      ...{ organisationId, volunteerId, arrivedAt: MoreThanOrEqual(at) },
      ...elsewhere,
    })
  );
}

/** The hours of one stay: those at a turnout, or those of a day that are at none. */
const ofStay = ({ organisationId, volunteerId, turnoutId, workedOn }: Stay) => ({
  ...{ organisationId, volunteerId, way: Not('adjustment' as const) },
  ...(turnoutId === null ? { turnoutId: IsNull(), workedOn } : { turnoutId }),
});

/** Under which keys parents may have been told of a stay's comings and leavings. */
async function keysOf(manager: EntityManager, stay: Stay): Promise<string[]> {
  const rows = await manager.find(HourEntryEntity, { where: ofStay(stay), order: { id: 'ASC' } });
  const { turnoutId } = stay;
  return [...(turnoutId === null ? [] : [turnoutId]), ...new Set(rows.map(({ rootId }) => rootId))];
}

/** Whether somebody is signed on still, and when the last of their hours ended; null where they have none. */
async function lastOf(
  manager: EntityManager,
  stay: Stay,
): Promise<{ isOn: boolean; endedAt: number | null }> {
  const entries = await entriesThatCount(manager, stay.organisationId).andWhere(ofStay(stay)).getMany();
  const ends = entries.flatMap(({ endsAt }) => endsAt ?? []);
  return {
    isOn: ends.length < entries.length,
    endedAt: ends.length === 0 ? null : Math.max(...ends),
  };
}
