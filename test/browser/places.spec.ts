import { jest } from '@jest/globals';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import { describeWith } from '../parts/parts.js';
import { axeViolations, openPage, overflow, phone } from './chromium.js';
import { withYard } from './with-yard.js';
import { postWeek, type Yard } from './yard.js';

// Generous, since the machine may be doing much else.
jest.setTimeout(240_000);

const awayWords = /ERR_INTERNET_DISCONNECTED|WebSocket connection/;

interface Offered {
  place: { id: string; turnout: { id: string }; task: { title: string } };
}

/** A volunteer at the yard, where the line is poor. */
describeWith(['Chromium'], 'a place taken on a phone without a line', () => {
  let yard: Yard;
  let browser: Browser;
  let context: BrowserContext;
  let page: Page;
  let faults: string[];

  withYard(async (at) => {
    ({ yard, browser } = at);
    await postWeek(await yard.client('coordinator'), '2027-03-06');
    await leaveRoom();
  });
  beforeEach(async () => {
    ({ context, page, faults } = await openPage(browser, yard.address, {
      viewport: phone,
      cookie: await yard.cookie('volunteer'),
    }));
    await page.goto('/places');
    await page.getByRole('heading', { name: 'Places you may take' }).waitFor();
    await page.evaluate(`navigator.serviceWorker.ready.then(async () => {
      for (let i = 0; i < 200; i += 1) {
        const cache = await caches.open('ribband-page');
        if (await cache.match('/')) return;
        await new Promise((done) => setTimeout(done, 100));
      }
      throw new Error('the page was not kept');
    })`);
  });
  afterEach(async () => {
    await context.close();
    expect(faults.filter((fault) => !awayWords.test(fault))).toEqual([]);
  });

  const open = () => page.getByRole('region', { name: 'Places you may take' }).getByRole('article');
  const offered = async () =>
    (
      await (
        await yard.client('volunteer')
      ).query<{ openPlaces: Offered[] }>('{ openPlaces { place { id turnout { id } task { title } } } }')
    ).openPlaces;

  /** Somebody who only lends a hand leaves on Sunday, until there is a place that the volunteer may take. */
  async function leaveRoom(): Promise<void> {
    const coordinator = await yard.client('coordinator');
    const { turnouts } = await coordinator.query<{
      turnouts: { places: { id: string; skill: object | null; hand: { volunteerId: string } | null }[] }[];
    }>(
      '{ turnouts(from: "2027-03-07", to: "2027-03-07") { places { id skill { id } hand { volunteerId } } } }',
    );
    for (const { id, skill, hand } of turnouts.flatMap(({ places }) => places)) {
      if ((await offered()).length > 0) return;
      if (skill !== null || hand === null) continue;
      await coordinator.query(
        'mutation Leave($id: ID!, $who: ID!) { leavePlace(placeId: $id, volunteerId: $who) { __typename } }',
        { id, who: hand.volunteerId },
      );
    }
    expect((await offered()).length).toBeGreaterThan(0);
  }

  /** Two taps, without a line, on a page that was opened without one. */
  async function takeFirst(): Promise<void> {
    await open().first().waitFor();
    await context.setOffline(true);
    await page.reload();
    const first = open().first();
    await first.getByRole('button', { name: 'Take this place' }).click();
    await first.getByRole('button', { name: 'Yes, I will be there' }).click();
    await page.getByText('No line just now. This is kept here').waitFor();
    await first.getByText('You have pressed yes. It waits for the line.').waitFor();
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
  }

  test('is theirs once the line is back, and they are told', async () => {
    const [first] = await offered();
    await takeFirst();
    await context.setOffline(false);
    await page.getByText(/^Done: The place is yours/).waitFor({ timeout: 60_000 });
    const { myPlaces } = await (
      await yard.client('volunteer')
    ).query<{ myPlaces: { id: string; state: string }[] }>('{ myPlaces { id state } }');
    expect(myPlaces).toContainEqual({ id: first.place.id, state: 'TAKEN' });
    await page.getByRole('button', { name: /^Read/ }).click();
    await page.getByText(/^Done:/).waitFor({ state: 'detached' });
    await (
      await yard.client('volunteer')
    ).query('mutation Leave($id: ID!) { leavePlace(placeId: $id) { __typename } }', { id: first.place.id });
  });

  test('that went meanwhile is said to be gone, and nothing of it is theirs', async () => {
    const [first] = await offered();
    await takeFirst();
    const coordinator = await yard.client('coordinator');
    const { morningSheet } = await coordinator.query<{
      morningSheet: { people: { hand: { volunteerId: string } }[] };
    }>('query Sheet($id: ID!) { morningSheet(turnoutId: $id) { people { hand { volunteerId } } } }', {
      id: first.place.turnout.id,
    });
    let isGone = false;
    for (const { hand } of morningSheet.people) {
      const { takePlace } = await coordinator.query<{ takePlace: { __typename: string } }>(
        'mutation Take($placeId: ID!, $for: ID!) { takePlace(placeId: $placeId, volunteerId: $for) { __typename } }',
        { placeId: first.place.id, for: hand.volunteerId },
      );
      if (takePlace.__typename === 'TakePlacePayload') {
        isGone = true;
        break;
      }
    }
    expect(isGone).toBe(true);
    await context.setOffline(false);
    await page.getByText(/^Not done:.*Somebody else has this place\./).waitFor({ timeout: 60_000 });
    expect((await offered()).some(({ place }) => place.id === first.place.id)).toBe(false);
  });

  test('leaves nothing behind on a phone that somebody signs out of', async () => {
    await page.getByRole('button', { name: 'Sign out' }).click();
    await page.getByLabel('E-mail address').waitFor();
    const left = await page.evaluate<number>(`new Promise((done, failed) => {
      const asked = indexedDB.open('ribband', 1);
      asked.onerror = failed;
      asked.onsuccess = () => {
        const shelves = [...asked.result.objectStoreNames];
        const counts = shelves.map((name) => new Promise((counted) => {
          const count = asked.result.transaction(name).objectStore(name).count();
          count.onsuccess = () => counted(count.result);
        }));
        Promise.all(counts).then((all) => done(all.reduce((sum, one) => sum + one, 0)));
      };
    })`);
    expect(left).toBe(0);
  });
});
