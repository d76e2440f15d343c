import { fastifyCookie } from '@fastify/cookie';
import type { Config } from '@ribband/platform';
import type { FastifyReply, FastifyRequest } from 'fastify';

export const cookieName = 'ribband_session';

/** The token in a Cookie header, or null. */
export function tokenIn(header: string | undefined): string | null {
  if (!header) return null;
  return fastifyCookie.parse(header)[cookieName] ?? null;
}

/**
 * Sets or removes the session cookie. Scripts cannot read it, other sites cannot send it along with a POST, and
 * behind https it never travels in the open.
 */
export function setSessionCookie(
  config: Config,
  request: FastifyRequest,
  reply: FastifyReply,
  token: string | null,
  expiresAt: number,
): void {
  const isHttps = config.publicUrl ? config.publicUrl.startsWith('https:') : request.protocol === 'https';
  const options = { path: '/', httpOnly: true, sameSite: 'lax' as const, secure: isHttps };
  if (token === null) void reply.clearCookie(cookieName, options);
  else void reply.setCookie(cookieName, token, { ...options, expires: new Date(expiresAt) });
}
