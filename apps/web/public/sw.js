/* global caches, fetch, self */
/*
 * Keeps the page itself, so that it opens without a line. What it shows is kept elsewhere, by the page; nothing about
 * people goes through here. The list of files is written by the build.
 */
const shelf = 'ribband-page';
const list = '/files.json';

self.addEventListener('install', (event) => {
  event.waitUntil(fill().then(() => self.skipWaiting()));
});

self.addEventListener('activate', (event) => {
  event.waitUntil(self.clients.claim());
});

self.addEventListener('fetch', (event) => {
  const { request } = event;
  const address = new URL(request.url);
  if (request.method !== 'GET' || address.origin !== self.location.origin) return;
  if (request.mode === 'navigate') event.respondWith(start(event));
  else if (address.pathname.startsWith('/assets/')) event.respondWith(named(request));
});

/** The newest page where there is a line, else the one that is kept. */
async function start(event) {
  try {
    const answer = await fetch(event.request);
    if (answer.ok) event.waitUntil(fill());
    return answer;
  } catch (error) {
    const kept = await (await caches.open(shelf)).match('/');
    if (kept) return kept;
    throw error;
  }
}

/** Files under assets are named by their content: what is kept is right. */
async function named(request) {
  return (await (await caches.open(shelf)).match(request)) ?? fetch(request);
}

/** Fetches what the list names and is not kept, then the page, then lets go of what the list no longer names. */
async function fill() {
  const cache = await caches.open(shelf);
  const answer = await fetch(list, { cache: 'no-cache' });
  if (!answer.ok) return;
  const files = Object.values(await answer.json()).flatMap((entry) => [entry.file, ...(entry.css ?? [])]);
  const wanted = new Set(files.filter((file) => file.startsWith('assets/')).map((file) => `/${file}`));
  const kept = new Set((await cache.keys()).map((request) => new URL(request.url).pathname));
  const missing = [...wanted].filter((path) => !kept.has(path));
  if (missing.length > 0 || !kept.has('/')) await cache.addAll([...missing, '/', '/mark.svg']);
  for (const path of kept) if (path.startsWith('/assets/') && !wanted.has(path)) await cache.delete(path);
}
