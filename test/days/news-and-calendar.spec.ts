import { Membership } from '@ribband/access';
import { Volunteer } from '@ribband/crew';
import { Database, Messages } from '@ribband/platform';
import ICAL from 'ical.js';
import { addressOf, foundYard, startApi, type TestApi } from '../harness/api.js';
import type { Client } from '../harness/client.js';

describe('news and calendars over the API', () => {
  let api: TestApi;
  let yardId: string;
  let volunteer: Client;
  let coordinator: Client;
  const me = 'volunteer_01932c07-0000-7000-8000-000000000001';

  beforeAll(async () => {
    api = await startApi();
    yardId = await foundYard(api, { volunteerId: me });
    const database = api.server.app.get(Database);
    await database.write(async (manager) => {
      await manager.insert(Volunteer, {
        id: me,
        organisationId: yardId,
        ref: 'anselm',
        version: 1,
        name: 'Anselm Druitt',
        kind: 'volunteer',
        bornOn: null,
        email: null,
        showUpChance: 0.8,
        minutesAWeek: null,
        minutesATurnout: null,
      });
      const key = 'notice 1';
      await api.server.app.get(Messages).post(manager, {
        organisationId: yardId,
        to: [me],
        kind: 'yard-notice',
        key,
        subject: 'Bring gloves',
        words: 'The oakum is tarred.',
      });
    });
    volunteer = await api.signIn(addressOf('volunteer'));
    coordinator = await api.signIn(addressOf('coordinator'));
  }, 60_000);
  afterAll(() => api.close());

  it('each reads their own news and marks them as read', async () => {
    const ask = '{ news { unread messages { id subject readAt } choices { kind way maySwitchOff } } }';
    const { news } = await volunteer.query<{ news: { unread: number; messages: { id: string }[] } }>(ask);
    expect(news).toMatchObject({ unread: 1, messages: [{ subject: 'Bring gloves', readAt: null }] });
    expect(await coordinator.query(ask)).toMatchObject({ news: { unread: 0, messages: [] } });
    const read = 'mutation R($ids: [ID!]) { readNews(ids: $ids) { ... on NewsPayload { news { unread } } } }';
    const ids = news.messages.map((one) => one.id);
    // Somebody else's news cannot be marked.
    await coordinator.query(read, { ids });
    expect(await volunteer.query(ask)).toMatchObject({ news: { unread: 1 } });
    expect(await volunteer.query(read, { ids })).toEqual({ readNews: { news: { unread: 0 } } });
  });

  it('what is about safety cannot be switched off', async () => {
    const choose =
      'mutation C($kind: MessageKind!, $way: MessageWay!) { chooseNews(kind: $kind, way: $way) { __typename ... on Refusal { code field } } }';
    expect(await volunteer.query(choose, { kind: 'TURNOUT_CALLED_OFF', way: 'OFF' })).toEqual({
      chooseNews: { __typename: 'Refusal', code: 'BAD_INPUT', field: 'way' },
    });
    expect(await volunteer.query(choose, { kind: 'PLACE_WANTED', way: 'OFF' })).toEqual({
      chooseNews: { __typename: 'NewsPayload' },
    });
  });

  it('undelivered mail and quiet hours are for those who run the yard', async () => {
    const ask = '{ yardMail { quietHours { fromTime toTime } deadLetters { id } } }';
    expect((await volunteer.send(ask)).errors[0]?.extensions?.['code']).toBe('NOT_PERMITTED');
    expect(await coordinator.query(ask)).toEqual({
      yardMail: { quietHours: { fromTime: '21:00', toTime: '07:00' }, deadLetters: [] },
    });
    const set =
      'mutation { setQuietHours(fromTime: "22:00", toTime: "late") { ... on Refusal { code field } } }';
    expect(await coordinator.query(set)).toEqual({ setQuietHours: { code: 'BAD_INPUT', field: 'toTime' } });
  });

  const make =
    'mutation { makeCalendarAddress { ... on MakeCalendarAddressPayload { address } ... on Refusal { code } } }';
  const makeAddress = async (): Promise<string> => {
    const made = await volunteer.query<{ makeCalendarAddress: { address: string } }>(make);
    return api.url + made.makeCalendarAddress.address;
  };

  it('a calendar is read at its secret address without a cookie, and not a second time when nothing changed', async () => {
    const address = await makeAddress();
    const answer = await fetch(address);
    expect(answer.status).toBe(200);
    expect(answer.headers.get('content-type')).toBe('text/calendar; charset=utf-8');
    expect(answer.headers.get('cache-control')).toBe('private, no-cache');
    const calendar = new ICAL.Component(ICAL.parse(await answer.text()) as unknown[]);
    expect(calendar.getFirstPropertyValue('name')).toBe('Anselm Druitt: The Test Yard');
    const tag = answer.headers.get('etag') ?? '';
    expect((await fetch(address, { headers: { 'if-none-match': tag } })).status).toBe(304);
  });

  it('a wrong, a replaced and a revoked address read the same', async () => {
    const first = await makeAddress();
    const second = await makeAddress();
    expect((await fetch(first)).status).toBe(404);
    await volunteer.query('mutation { revokeCalendarAddress { __typename } }');
    const wrong = await fetch(`${api.url}/calendar/${'a'.repeat(43)}.ics`);
    const revoked = await fetch(second);
    expect([wrong.status, revoked.status]).toEqual([404, 404]);
    expect(await wrong.text()).toBe(await revoked.text());
  });

  it('an account that belongs to nobody in the crew has no calendar', async () => {
    expect(await coordinator.query(make)).toEqual({ makeCalendarAddress: { code: 'NOT_PERMITTED' } });
    const rows = await api.server.app.get(Database).read.findBy(Membership, { volunteerId: me });
    expect(rows).toHaveLength(1);
  });

  it('whoever tries addresses one after the other is told to wait', async () => {
    const statuses = [];
    for (let i = 0; i < 70; i++) {
      const token = String(i).padStart(43, 'x');
      statuses.push((await fetch(`${api.url}/calendar/${token}.ics`)).status);
    }
    expect(statuses.at(-1)).toBe(429);
    const answer = await fetch(`${api.url}/calendar/${'x'.repeat(43)}.ics`);
    expect(Number(answer.headers.get('retry-after'))).toBeGreaterThan(0);
  });
});
