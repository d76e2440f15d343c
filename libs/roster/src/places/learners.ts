import { Skill, Volunteer } from '@ribband/crew';
import { In, IsNull, Not, type EntityManager } from 'typeorm';
import { overlap } from '../turnouts/relay-out.js';
import type { SeatedAt } from './gate-book.js';
import { PlaceEntity } from './place.entity.js';

/** The learners' places at a turnout that nobody has left. */
export function learnersAt(manager: EntityManager, turnoutId: string): Promise<PlaceEntity[]> {
  return manager.find(PlaceEntity, {
    where: { turnoutId, teacherId: Not(IsNull()), state: In(['posted', 'taken']) },
    order: { id: 'ASC' },
  });
}

/** Whether the teacher of a learner's place is on the same work at the same time. */
export const hasTeacher = (
  { teacherId, taskId, startsAt, endsAt }: Pick<PlaceEntity, 'teacherId' | 'taskId' | 'startsAt' | 'endsAt'>,
  seats: readonly Pick<SeatedAt, 'volunteerId' | 'taskId' | 'startsAt' | 'endsAt'>[],
): boolean =>
  seats.some(
    (seat) => seat.volunteerId === teacherId && seat.taskId === taskId && overlap(seat, { startsAt, endsAt }),
  );

/**
 * Takes the places away of who would learn beside somebody who is not on the work any more, in the caller's transaction.
 * @returns those places; who had them is still to be told
 */
export async function endLessons(
  manager: EntityManager,
  turnoutIds: readonly string[],
): Promise<PlaceEntity[]> {
  const standing = await manager.find(PlaceEntity, {
    where: { turnoutId: In([...turnoutIds]), state: In(['posted', 'taken']) },
    order: { id: 'ASC' },
  });
  const over = standing.filter(
    (place) =>
      place.teacherId !== null &&
      !hasTeacher(
        place,
        standing.filter(({ turnoutId }) => turnoutId === place.turnoutId),
      ),
  );
  if (over.length > 0) await manager.delete(PlaceEntity, { id: In(over.map(({ id }) => id)) });
  return over;
}

/**
 * Of learners who are there, whose place falls away on a morning, and why, in sentences: the teacher is not on the work,
 * or they themselves are not.
 * @param places learners' places as they were posted
 * @param seats who is on what once the turnout is called
 */
export async function learnersWithoutTeacher(
  manager: EntityManager,
  places: readonly PlaceEntity[],
  seats: readonly SeatedAt[],
  presentIds: readonly string[],
): Promise<string[]> {
  const there = new Set(presentIds);
  const isOn = (id: string | null, taskId?: string): boolean =>
    seats.some((seat) => seat.volunteerId === id && (taskId === undefined || seat.taskId === taskId));
  const without = places.filter(
    (place) =>
      there.has(place.volunteerId ?? '') &&
      !(hasTeacher(place, seats) && isOn(place.volunteerId, place.taskId)),
  );
  const people = await manager.findBy(Volunteer, {
    id: In(without.flatMap(({ volunteerId, teacherId }) => [volunteerId ?? '', teacherId ?? ''])),
  });
  const skills = await manager.findBy(Skill, { id: In(without.map(({ skillId }) => skillId ?? '')) });
  const name = (id: string | null) => people.find((one) => one.id === id)?.name ?? '';
  return without.map((place) => {
    const { volunteerId, teacherId, skillId } = place;
    const skill = skills.find(({ id }) => id === skillId)?.name.toLowerCase() ?? '';
    const elsewhere = (id: string | null) => (isOn(id) ? 'is on other work' : 'is not called to that work');
    const why = hasTeacher(place, seats)
      ? `${name(volunteerId)} ${elsewhere(volunteerId)}`
      : `${name(teacherId)} ${there.has(teacherId ?? '') ? elsewhere(teacherId) : 'is not here'}`;
    return `${name(volunteerId)} does not learn ${skill} this time: ${why}.`;
  });
}
