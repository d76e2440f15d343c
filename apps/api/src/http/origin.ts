import type { Config } from '@ribband/platform';
import type { IncomingHttpHeaders } from 'node:http';

/**
 * Whether a request comes from our own page, or from a program that is no browser (which sends no Origin). Asked
 * for everything that reads or changes records, over HTTP and WebSocket: a WebSocket is open to any site
 * otherwise, with the cookie.
 */
export function isOurOrigin(config: Config, headers: IncomingHttpHeaders): boolean {
  const { origin, host } = headers;
  if (origin === undefined) return headers['sec-fetch-site'] !== 'cross-site';
  if (config.publicUrl && origin === config.publicUrl) return true;
  if (!host) return false;
  return origin === `http://${host}` || origin === `https://${host}`;
}
