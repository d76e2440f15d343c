import { setTimeout as pause } from 'node:timers/promises';
import { Bus } from '@ribband/platform';
import { addressOf, foundYard, startApi, type TestApi } from '../harness/api.js';
import type { Client } from '../harness/client.js';

const news = 'subscription { rosterChanged { turnoutIds } }';

describe('news over the WebSocket', () => {
  let api: TestApi;
  let yard: string;
  let clients: Client[];
  beforeEach(async () => {
    api = await startApi();
    yard = await foundYard(api);
    clients = [];
  });
  afterEach(async () => {
    for (const client of clients) await client.close();
    await api.close();
  });

  const signedIn = async (email: string): Promise<Client> => {
    const client = await api.signIn(email);
    clients.push(client);
    return client;
  };
  /** Says it again until somebody has heard it: a subscription takes a moment to stand. */
  const tellUntilHeard = async <T>(heard: Promise<T>, organisationId = yard): Promise<T> => {
    const timer = setInterval(() => {
      api.server.app.get(Bus).publish(`roster:${organisationId}`, { turnoutIds: ['turnout_1'] });
    }, 20);
    return heard.finally(() => {
      clearInterval(timer);
    });
  };

  it('reaches those who are signed in at the yard', async () => {
    const volunteer = await signedIn(addressOf('volunteer'));
    const heard = volunteer.subscribe(news).next();
    expect(await tellUntilHeard(heard)).toMatchObject({
      value: { data: { rosterChanged: { turnoutIds: ['turnout_1'] } } },
    });
  });

  it('never tells one yard about another', async () => {
    const other = await foundYard(api, { name: 'Another Yard', domain: 'other.example' });
    const here = await signedIn(addressOf('volunteer'));
    const there = await signedIn(addressOf('volunteer', 'other.example'));
    let hasHeard = false;
    void here
      .subscribe(news)
      .next()
      .then(
        () => (hasHeard = true),
        () => undefined,
      );
    await tellUntilHeard(there.subscribe(news).next(), other);
    await pause(100);
    expect(hasHeard).toBe(false);
  });

  it('is for nobody who is not signed in', async () => {
    const visitor = api.visitor();
    clients.push(visitor);
    expect(await visitor.subscribe(news).next()).toMatchObject({
      value: { errors: [{ extensions: { code: 'NOT_SIGNED_IN' } }] },
    });
  });

  it('ends when the session ends', async () => {
    const volunteer = await signedIn(addressOf('volunteer'));
    const stream = volunteer.subscribe(news);
    await tellUntilHeard(stream.next());
    const end = (async () => {
      for await (const piece of stream) expect(piece).toBeDefined();
    })();
    await volunteer.query('mutation { signOut }');
    await expect(end).rejects.toMatchObject({ code: 4403 });
  });

  it('is not given to a page of another site', async () => {
    const volunteer = await signedIn(addressOf('volunteer'));
    const stream = volunteer.subscribe(news, {}, { origin: 'https://evil.example' });
    await expect(stream.next()).rejects.toBeDefined();
    const ours = volunteer.subscribe(news, {}, { origin: api.url });
    expect(await tellUntilHeard(ours.next())).toMatchObject({ done: false });
  });

  it('carries subscriptions only, and refuses senseless ones with the reason', async () => {
    const volunteer = await signedIn(addressOf('volunteer'));
    await expect(volunteer.subscribe('{ me { role } }').next()).rejects.toMatchObject([
      { message: expect.stringContaining('POST') as string, extensions: { code: 'BAD_REQUEST' } },
    ]);
    await expect(volunteer.subscribe('subscription { nonsense }').next()).rejects.toMatchObject([
      { extensions: { code: 'GRAPHQL_VALIDATION_FAILED' } },
    ]);
    await expect(volunteer.subscribe('subscription {').next()).rejects.toMatchObject([
      { extensions: { code: 'GRAPHQL_VALIDATION_FAILED' } },
    ]);
  });
});
