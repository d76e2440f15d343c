import { request } from 'node:http';
import { addressOf, foundYard, startApi, type TestApi } from '../harness/api.js';
import type { Client } from '../harness/client.js';

const evil = 'https://evil.example';

describe('a page of another site', () => {
  let api: TestApi;
  let director: Client;
  beforeAll(async () => {
    api = await startApi();
    await foundYard(api);
    director = await api.signIn(addressOf('director'));
  });
  afterAll(() => api.close());

  it('cannot send documents with the cookie of ours', async () => {
    const body = JSON.stringify({ query: 'mutation { signOut }' });
    expect((await director.post(body, { origin: evil })).status).toBe(403);
    expect((await director.post(body, { origin: 'null' })).status).toBe(403);
    expect((await director.post(body, { 'sec-fetch-site': 'cross-site' })).status).toBe(403);
    expect(await director.query('{ me { role } }')).toEqual({ me: { role: 'DIRECTOR' } });
  });

  it('cannot send what a plain form can send', async () => {
    const form = await director.post('query=mutation{signOut}', {
      'content-type': 'application/x-www-form-urlencoded',
    });
    expect(form.status).toBeGreaterThanOrEqual(400);
    expect(form.status).toBeLessThan(500);
    const text = await director.post('{"query":"mutation{signOut}"}', { 'content-type': 'text/plain' });
    expect(text.status).toBeGreaterThanOrEqual(400);
    expect(text.status).toBeLessThan(500);
    const got = await fetch(`${api.url}/graphql?query=%7Bme%7Brole%7D%7D`, {
      headers: { cookie: director.cookie ?? '' },
    });
    expect(got.status).toBe(400);
    expect(await director.query('{ me { role } }')).toEqual({ me: { role: 'DIRECTOR' } });
  });

  it('is let in from the page itself', async () => {
    const body = JSON.stringify({ query: '{ me { role } }' });
    expect((await director.post(body, { origin: api.url })).status).toBe(200);
  });

  it('cannot open a WebSocket', async () => {
    const upgrade = (headers: Record<string, string>, path = '/graphql'): Promise<number> =>
      new Promise((resolve, reject) => {
        const asked = request(`${api.url}${path}`, {
          headers: {
            connection: 'Upgrade',
            upgrade: 'websocket',
            'sec-websocket-version': '13',
            'sec-websocket-key': 'dGhlIHNhbXBsZSBub25jZQ==',
            'sec-websocket-protocol': 'graphql-transport-ws',
            cookie: director.cookie ?? '',
            ...headers,
          },
        });
        asked.on('response', (response) => {
          response.resume();
          resolve(response.statusCode ?? 0);
        });
        asked.on('upgrade', (response, socket) => {
          socket.destroy();
          resolve(response.statusCode ?? 0);
        });
        asked.on('error', reject);
        asked.end();
      });
    expect(await upgrade({ origin: evil })).toBe(403);
    expect(await upgrade({ origin: api.url })).toBe(101);
    expect(await upgrade({})).toBe(101);
    expect(await upgrade({}, '/elsewhere')).toBe(404);
  });
});
