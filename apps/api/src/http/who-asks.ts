import type { RequestContext, Sessions } from '@ribband/access';
import type { Config } from '@ribband/platform';
import type { FastifyInstance, FastifyRequest } from 'fastify';
import { contextOf } from '../graphql/context.js';

declare module 'fastify' {
  interface FastifyRequest {
    /** Who asks; set only on routes that are not for anyone. */
    whoAsks?: RequestContext;
  }
}

/** Looks up who asks before a route under one of these paths is entered: the guard lets in whom the route has declared. */
export function lookUpWhoAsks(
  fastify: FastifyInstance,
  config: Config,
  sessions: () => Sessions,
  paths: readonly string[],
): void {
  fastify.addHook('onRequest', async (request: FastifyRequest, reply) => {
    if (!paths.some((path) => request.url.startsWith(path))) return;
    request.whoAsks = await contextOf(sessions(), config, request, reply);
  });
}
