import type { RequestContext } from '@ribband/access';
import { groupedBy, inOrderOf, loader } from '@ribband/crew';
import { Task } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';
import { PlaceEntity } from './places/place.entity.js';
import { TurnoutEntity } from './turnouts/turnout.entity.js';

type Context = Pick<RequestContext, 'loaders'>;

/** Turnouts by id, one read a request. */
export const turnoutLoader = (context: Context, read: EntityManager) =>
  loader(context, 'roster.turnout', async (ids: readonly string[]) =>
    inOrderOf(ids, await read.findBy(TurnoutEntity, { id: In([...ids]) })),
  );

/** The places of turnouts, by turnout, in order of time. */
export const placesLoader = (context: Context, read: EntityManager) =>
  loader(context, 'roster.places', async (ids: readonly string[]) =>
    groupedBy(
      ids,
      await read.find(PlaceEntity, {
        where: { turnoutId: In([...ids]) },
        order: { startsAt: 'ASC', id: 'ASC' },
      }),
      (place) => place.turnoutId,
    ),
  );

/** Tasks by id, one read a request. */
export const rosterTaskLoader = (context: Context, read: EntityManager) =>
  loader(context, 'roster.task', async (ids: readonly string[]) =>
    inOrderOf(ids, await read.findBy(Task, { id: In([...ids]) })),
  );
