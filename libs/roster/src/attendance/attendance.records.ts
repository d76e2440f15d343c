import { newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { AttendanceEntity, type AttendanceWay } from './attendance.entity.js';

/** Notes that somebody is at the yard at a turnout; who was noted already and had left is there again. */
export async function noteArrival(
  manager: EntityManager,
  came: Pick<AttendanceEntity, 'organisationId' | 'turnoutId' | 'volunteerId' | 'arrivedAt' | 'enteredBy'> & {
    how: AttendanceWay;
  },
): Promise<void> {
  const { turnoutId, volunteerId } = came;
  const there = await manager.findOneBy(AttendanceEntity, { turnoutId, volunteerId });
  if (!there) await manager.insert(AttendanceEntity, { id: newId('attendance'), ...came, leftAt: null });
  else if (there.leftAt !== null && came.arrivedAt >= there.leftAt)
    await manager.update(AttendanceEntity, { id: there.id }, { leftAt: null });
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
