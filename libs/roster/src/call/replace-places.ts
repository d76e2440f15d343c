import { In, type EntityManager } from 'typeorm';
import { hasTeacher } from '../places/learners.js';
import { newPlace, PlaceEntity } from '../places/place.entity.js';
import type { TurnoutEntity } from '../turnouts/turnout.entity.js';
import type { CalledSeat } from './called-seats.js';
import type { TurnoutCallEntity } from './turnout-call.entity.js';

/**
 * Puts the called seats in the place of what stood. Whoever had a place and is not there has left it; a place that
 * nobody took, or whose holder is on other work now, goes. Who learns beside a teacher goes on so where both are on the
 * work. All of it is kept with the call.
 */
export async function replacePlaces(
  manager: EntityManager,
  turnout: TurnoutEntity,
  { absent }: { absent: readonly { volunteerId: string; saidSo: boolean }[] },
  { kept, learners }: { kept: readonly CalledSeat[]; learners: readonly PlaceEntity[] },
  now: number,
): Promise<TurnoutCallEntity['replaced']> {
  const { organisationId, id: turnoutId } = turnout;
  const standing = await manager.findBy(PlaceEntity, { turnoutId, state: In(['posted', 'taken']) });
  const away = new Map(absent.map(({ volunteerId, saidSo }) => [volunteerId, saidSo]));
  const gone: string[] = [];
  for (const place of standing) {
    const saidSo = place.volunteerId === null ? undefined : away.get(place.volunteerId);
    if (saidSo === undefined) gone.push(place.id);
    else
      await manager.update(
        PlaceEntity,
        { id: place.id },
        {
          state: 'left',
          leftAt: now,
          leftReason: saidSo
            ? 'sent word before the turnout was called'
            : 'was not there when the turnout was called',
          version: place.version + 1,
        },
      );
  }
  if (gone.length > 0) await manager.delete(PlaceEntity, { id: In(gone) });
  for (const { taskId, skillId, level, role, cardKindId, volunteerId, startsAt, endsAt } of kept) {
    const learner = learners.find(
      (place) => place.volunteerId === volunteerId && place.taskId === taskId && hasTeacher(place, kept),
    );
    await manager.insert(
      PlaceEntity,
      newPlace({
        ...{ organisationId, turnoutId, taskId, volunteerId, startsAt, endsAt },
        skillId: learner?.skillId ?? skillId,
        level: learner?.level ?? level,
        role: role ?? null,
        cardKindId: cardKindId ?? null,
        teacherId: learner?.teacherId ?? null,
        ...{ state: 'taken', why: 'Called this morning.', takenAt: now },
      }),
    );
  }
  return standing.map(({ taskId, volunteerId, skillId, level, state, startsAt, endsAt }) => {
    return { taskId, volunteerId, skillId, level, state, startsAt, endsAt };
  });
}
