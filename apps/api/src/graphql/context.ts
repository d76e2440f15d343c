import type { RequestContext, Sessions } from '@ribband/access';
import type { Config } from '@ribband/platform';
import type { FastifyReply, FastifyRequest } from 'fastify';
import { setSessionCookie, tokenIn } from '../http/session-cookie.js';

/** What resolvers know about a request over HTTP. */
export async function contextOf(
  sessions: Sessions,
  config: Config,
  request: FastifyRequest,
  reply: FastifyReply,
): Promise<RequestContext> {
  const token = tokenIn(request.headers.cookie);
  const session = token === null ? null : await sessions.find(token);
  return {
    requestId: request.id,
    caller: session?.caller ?? null,
    mustChangePassword: session?.mustChangePassword ?? false,
    sessionToken: session ? token : null,
    address: request.ip,
    setSessionCookie: (fresh, expiresAt) => {
      setSessionCookie(config, request, reply, fresh, expiresAt);
    },
    loaders: new Map(),
  };
}
