import type { RequestContext } from '@ribband/access';
import { groupedBy, inOrderOf, loader } from '@ribband/crew';
import { Task } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';
import { overridesAt } from './overrides/overrides.records.js';
import { PlaceEntity } from './places/place.entity.js';
import { SwingHandEntity } from './swing/swing-hand.entity.js';
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

/** Who was asked to stand by, by turnout. */
export const swingLoader = (context: Context, read: EntityManager) =>
  loader(context, 'roster.swing', async (ids: readonly string[]) =>
    groupedBy(
      ids,
      await read.find(SwingHandEntity, { where: { turnoutId: In([...ids]) }, order: { id: 'ASC' } }),
      ({ turnoutId }) => turnoutId,
    ),
  );

/** The overrides that count at turnouts, by turnout. */
export const overridesLoader = (context: Context, read: EntityManager, organisationId: string) =>
  loader(context, 'roster.overrides', async (ids: readonly string[]) =>
    groupedBy(ids, await overridesAt(read, organisationId, ids), ({ turnoutId }) => turnoutId),
  );

/** Tasks by id, one read a request. */
export const rosterTaskLoader = (context: Context, read: EntityManager) =>
  loader(context, 'roster.task', async (ids: readonly string[]) =>
    inOrderOf(ids, await read.findBy(Task, { id: In([...ids]) })),
  );
