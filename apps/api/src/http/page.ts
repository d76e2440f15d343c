import { createReadStream } from 'node:fs';
import { stat } from 'node:fs/promises';
import { extname, join, resolve, sep } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { FastifyInstance, FastifyReply } from 'fastify';

/** Where the build of the page lies: beside this app, whether it runs from its source or its build. */
export const builtPage = fileURLToPath(new URL('../../../web/dist', import.meta.url));

const types: Record<string, string> = {
  '.css': 'text/css; charset=utf-8',
  '.html': 'text/html; charset=utf-8',
  '.ico': 'image/x-icon',
  '.js': 'text/javascript; charset=utf-8',
  '.json': 'application/json',
  '.map': 'application/json',
  '.png': 'image/png',
  '.svg': 'image/svg+xml',
  '.txt': 'text/plain; charset=utf-8',
  '.webmanifest': 'application/manifest+json',
  '.woff2': 'font/woff2',
};

const aYear = 365 * 24 * 60 * 60;

/**
 * Serves the page. Files under assets/ are named by their content and may be kept; every other address without an
 * ending is a place within the page, which finds its way from the same start.
 */
export function servePage(fastify: FastifyInstance, root: string): void {
  const folder = resolve(root);
  fastify.get('/*', async (request, reply) => {
    const path = pathOf(request.url);
    if (path === null) return say(reply, 400, 'This is not an address.');
    const wanted = resolve(join(folder, path));
    if (!wanted.startsWith(folder + sep) && wanted !== folder)
      return say(reply, 404, 'There is no such file.');
    if (wanted !== folder && (await isFile(wanted))) {
      const isNamedByContent = path.startsWith('/assets/');
      return sendFile(reply, wanted, isNamedByContent ? `public, max-age=${aYear}, immutable` : 'no-cache');
    }
    if (extname(path) !== '') return say(reply, 404, 'There is no such file.');
    const start = join(folder, 'index.html');
    if (!(await isFile(start))) return say(reply, 503, 'The page has not been built yet: npm run build');
    return sendFile(reply, start, 'no-cache');
  });
}

function pathOf(url: string): string | null {
  try {
    const path = decodeURIComponent(url.split('?')[0] ?? '/');
    return path.includes('\0') ? null : path;
  } catch (error) {
    if (error instanceof URIError) return null;
    throw error;
  }
}

async function isFile(path: string): Promise<boolean> {
  try {
    return (await stat(path)).isFile();
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code;
    if (code === 'ENOENT' || code === 'ENOTDIR' || code === 'ENAMETOOLONG') return false;
    throw error;
  }
}

function sendFile(reply: FastifyReply, path: string, caching: string): FastifyReply {
  return reply
    .header('cache-control', caching)
    .type(types[extname(path)] ?? 'application/octet-stream')
    .send(createReadStream(path));
}

function say(reply: FastifyReply, status: number, words: string): FastifyReply {
  return reply.code(status).type('text/plain; charset=utf-8').send(`${words}\n`);
}
