import type { RequestContext } from '@ribband/access';
import { inOrderOf, loader } from '@ribband/crew';
import { Link } from '@ribband/repair';
import { In, type EntityManager } from 'typeorm';
import type { PlanShelf } from './plan-shelf.service.js';

type Context = Pick<RequestContext, 'loaders'>;

/** Links by id, one read a request. */
export const linkLoader = (context: Context, read: EntityManager) =>
  loader(context, 'planning.link', async (ids: readonly string[]) =>
    inOrderOf(ids, await read.findBy(Link, { id: In([...ids]) })),
  );

/** The plan in force of a yard, looked up once a request. */
export const inForceLoader = (context: Context, shelf: PlanShelf) =>
  loader(context, 'planning.inForce', (ids: readonly string[]) =>
    Promise.all(ids.map((organisationId) => shelf.inForce(organisationId))),
  );
