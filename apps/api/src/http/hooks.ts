import { type Config, log, requestIds } from '@ribband/platform';
import type { FastifyInstance } from 'fastify';
import { isOurOrigin } from './origin.js';

/** Only our own scripts, styles and connections; nobody may frame the page. */
const contentSecurityPolicy = [
  "default-src 'self'",
  "img-src 'self' data:",
  "style-src 'self' 'unsafe-inline'",
  "connect-src 'self' ws: wss:",
  "frame-ancestors 'none'",
  "base-uri 'none'",
  "form-action 'self'",
].join('; ');

/** What every request passes: its id, the question where it comes from, and the headers of the answer. */
export function addHooks(fastify: FastifyInstance, config: Config): void {
  fastify.addHook('onRequest', (request, _reply, done) => {
    requestIds.run(request.id, done);
  });
  fastify.addHook('onRequest', async (request, reply) => {
    if (!request.url.startsWith('/graphql') || isOurOrigin(config, request.headers)) return;
    await reply.code(403).send({ errors: [{ message: 'This address is for the page of this server.' }] });
  });
  fastify.addHook('onSend', (request, reply, payload, done) => {
    if (!reply.hasHeader('content-security-policy'))
      void reply.header('content-security-policy', contentSecurityPolicy);
    void reply.headers({
      'referrer-policy': 'same-origin',
      'x-content-type-options': 'nosniff',
      'x-request-id': request.id,
    });
    if (request.url.startsWith('/graphql')) void reply.header('cache-control', 'no-store');
    done(null, payload);
  });
  fastify.addHook('onResponse', (request, reply, done) => {
    const { method, url } = request;
    const line = {
      method,
      path: pathToLog(url),
      status: reply.statusCode,
      millis: Math.round(reply.elapsedTime),
    };
    log.debug(line, 'answered');
    done();
  });
}

/** The path alone: what follows the question mark may be what people typed, and a calendar's address is a secret. */
function pathToLog(url: string): string | undefined {
  return url.startsWith('/calendar/') ? '/calendar/…' : url.split('?')[0];
}
