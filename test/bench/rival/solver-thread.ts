import { existsSync, readFileSync, readlinkSync } from 'node:fs';
import { createRequire } from 'node:module';
import { basename, dirname, join } from 'node:path';
import { runInThisContext } from 'node:vm';
import { parentPort } from 'node:worker_threads';

/**
 * Runs the browser build of the constraint modelling package in a thread of Node: its own entry for Node wants a
 * program installed on the machine. What a browser's worker has and a Node thread has not is put in its place here;
 * `fetch` answers from the package's own folder only.
 */
const script = createRequire(import.meta.url).resolve('minizinc/minizinc-worker.js');
const port = parentPort;
if (!port) throw new Error('this file is started as a thread');

const browser = {
  WorkerGlobalScope: true,
  self: globalThis,
  location: { href: 'http://localhost/minizinc-worker.js' },
  addEventListener: (_: string, hear: (event: { data: unknown }) => void) => {
    port.on('message', (data: unknown) => {
      hear({ data });
    });
  },
  postMessage: (word: unknown) => {
    port.postMessage(word);
  },
  fetch: (address: string) => {
    const name = basename(new URL(address).pathname);
    const headers = {
      'Content-Type': name.endsWith('.wasm') ? 'application/wasm' : 'application/octet-stream',
    };
    return Promise.resolve(new Response(readFileSync(join(dirname(script), name)), { headers }));
  },
};
for (const [name, value] of Object.entries(browser))
  Object.defineProperty(globalThis, name, { value, configurable: true, writable: true });
// The build looks here whether it is in a browser or in Node.
Object.defineProperty(process, 'type', { value: 'renderer' });

const place = '/proc/thread-self';
port.postMessage({
  type: 'thread',
  thread: existsSync(place) ? basename(readlinkSync(place)) : 'thread-self',
});
runInThisContext(readFileSync(script, 'utf8'), { filename: script });
