import { jest } from '@jest/globals';
import type { Browser, BrowserContext, Page } from 'playwright-core';
import type { Client } from '../harness/client.js';
import { describeWith } from '../parts/parts.js';
import { axeViolations, desk, openPage, overflow, phone } from './chromium.js';
import { withYard } from './with-yard.js';
import type { Role, Yard } from './yard.js';

// Generous, since the machine may be doing much else.
jest.setTimeout(240_000);

const on = '2027-03-20';
const awayWords = /ERR_INTERNET_DISCONNECTED|WebSocket connection/;

/** A week that is posted, its Saturday morning, with a line and without. */
describeWith(['Chromium'], 'a morning at the demo yard, in a browser', () => {
  let yard: Yard;
  let browser: Browser;
  let coordinator: Client;
  let page: Page;
  let context: BrowserContext;
  let faults: string[];

  withYard(async (at) => {
    ({ yard, browser } = at);
    coordinator = await yard.client('coordinator');
    await planFrom('2027-03-20T15:30:00Z');
    const { weekProposal } = await coordinator.query<{ weekProposal: { planId: string } }>(
      `{ weekProposal(weekOf: "${on}") { planId } }`,
    );
    const { postWeek } = await coordinator.query<{ postWeek: { __typename: string } }>(
      `mutation Post($planId: ID!) { postWeek(weekOf: "${on}", planId: $planId) { __typename } }`,
      weekProposal,
    );
    expect(postWeek.__typename).toBe('PostWeekPayload');
  });
  afterEach(async () => {
    await context.close();
    expect(faults.filter((fault) => !awayWords.test(fault))).toEqual([]);
  });

  /** Moves the yard's clock and waits for the plan that follows. */
  async function planFrom(to: string): Promise<void> {
    const revision = async () =>
      (await coordinator.query<{ plan: { isNewest: boolean } }>('{ plan { isNewest } }')).plan.isNewest;
    await coordinator.query('mutation Move($to: DateTime!) { moveYardClock(to: $to) { __typename } }', {
      to,
    });
    const latest = Date.now() + 120_000;
    while (!(await revision())) {
      if (Date.now() > latest) throw new Error('no plan after two minutes');
      await new Promise((resolve) => setTimeout(resolve, 300));
    }
  }

  async function open(path: string, role: Role, viewport = phone): Promise<void> {
    ({ context, page, faults } = await openPage(browser, yard.address, {
      viewport,
      cookie: await yard.cookie(role),
    }));
    await page.goto(path);
  }

  /** The page is kept by the browser from now on. */
  async function untilKept(): Promise<void> {
    await page.evaluate(`navigator.serviceWorker.ready.then(async () => {
      for (let i = 0; i < 200; i += 1) {
        const cache = await caches.open('ribband-page');
        if (await cache.match('/')) return;
        await new Promise((done) => setTimeout(done, 100));
      }
      throw new Error('the page was not kept');
    })`);
  }

  const heading = (name: string) => page.getByRole('heading', { name, exact: true });
  const press = (name: string | RegExp) => page.getByRole('button', { name }).click();

  test('with four missing is called on a phone: what falls away says why, and the roster is the called one', async () => {
    await open('/call', 'coordinator');
    await heading('Who is here').waitFor();
    await press('All expected are here');
    const boxes = page.locator('.tickers').first().getByRole('checkbox');
    const people = await boxes.count();
    expect(people).toBeGreaterThan(8);
    for (const name of ['Anselm Druitt', 'Kofi Dallimore', 'Lachlan Birse', 'Ines Farquell'])
      await page.getByLabel(name).first().uncheck();
    await press('What can be done now?');
    await page.getByText('Worked out now for exactly these people').waitFor();
    await page.getByText(/waits\. Nobody here for sawing/).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    await press('Call it so');
    await page.getByText(/^Called: the turnout of Saturday 20 March/).waitFor();
    await page.getByText(/Called at \d\d:\d\d by Perrin Vaskell/).waitFor();
    const { turnouts } = await coordinator.query<{
      turnouts: { places: { state: string; hand: { name: string } | null }[] }[];
    }>(`{ turnouts(from: "${on}", to: "${on}") { places { state hand { name } } } }`);
    const names = turnouts[0].places.flatMap(({ state, hand }) => (state === 'TAKEN' ? [hand?.name] : []));
    expect(names).not.toContain('Anselm Druitt');
    expect(new Set(names).size).toBe(people - 4);
  });

  test('somebody who comes late is ticked by the code of the badge, and it is called again', async () => {
    const { badges } = await coordinator.query<{ badges: { code: string; hand: { name: string } }[] }>(
      '{ badges { code hand { name } } }',
    );
    const code = badges.find(({ hand }) => hand.name === 'Anselm Druitt')?.code ?? '';
    await open('/call', 'coordinator', desk);
    await page.getByText(/Called at/).waitFor();
    await page.getByText('Badges', { exact: true }).click();
    // One character was smudged.
    await page.getByLabel('Code on the badge').fill(`${code.slice(0, -1)}${code.endsWith('7') ? '8' : '7'}`);
    await press('Is here');
    await press('Yes, Anselm Druitt');
    await page.getByText('Anselm Druitt is here.').first().waitFor();
    await press('What can be done now?');
    await page.getByRole('listitem').filter({ hasText: 'Anselm Druitt' }).last().waitFor();
    await press('Call it again so');
    await page.getByText(/for the second time/).waitFor();
  });

  test('goes on without a line: the phone works it out from its sheet, keeps the call, and sends it once', async () => {
    await open('/call', 'coordinator');
    await heading('Who is here').waitFor();
    await untilKept();
    await context.setOffline(true);
    await page.reload();
    await heading('Who is here').waitFor();
    await page.getByLabel('Gideon Mallory-Ng').first().uncheck();
    await press('What can be done now?');
    await page.getByText(/Worked out on this phone from the sheet that it keeps/).waitFor();
    await page.getByText('No line to the yard.').waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await press('Call it again so');
    await page.getByText(/is called on this phone, and waits for the line/).waitFor();
    // A pocket later.
    await page.reload();
    await page.getByText('Waits:').waitFor();
    await context.setOffline(false);
    await page.getByText('Done:').waitFor({ timeout: 60_000 });
    await page.getByText('for the third time').waitFor();
    expect(await callsKept()).toBe(3);
  });

  async function callsKept(): Promise<number> {
    const { turnouts } = await coordinator.query<{ turnouts: { id: string }[] }>(
      `{ turnouts(from: "${on}", to: "${on}") { id } }`,
    );
    const { turnoutCall } = await coordinator.query<{ turnoutCall: { version: number } }>(
      'query Call($id: ID!) { turnoutCall(turnoutId: $id) { version } }',
      { id: turnouts[0].id },
    );
    return turnoutCall.version;
  }

  test('a sheet that is too old gives no work out', async () => {
    await open('/call', 'coordinator');
    await heading('Who is here').waitFor();
    await untilKept();
    await page.evaluate(`new Promise((done, failed) => {
      const asked = indexedDB.open('ribband', 1);
      asked.onerror = failed;
      asked.onsuccess = () => {
        const store = asked.result.transaction('answers', 'readwrite').objectStore('answers');
        const cursor = store.openCursor();
        cursor.onsuccess = () => {
          const at = cursor.result;
          if (!at) { done(); return; }
          if (at.value.at) at.update({ ...at.value, at: at.value.at - 13 * 3600000 });
          at.continue();
        };
      };
    })`);
    await context.setOffline(true);
    await press('What can be done now?');
    await page.getByText(/older than 12 hours: too much may have changed/).waitFor();
    expect(await page.getByRole('button', { name: /Call it/ }).count()).toBe(0);
  });

  test('is entered from the sheet on the wall by its numbers', async () => {
    await open('/call', 'coordinator');
    await page.getByRole('link', { name: 'The sheet for the wall' }).click();
    await heading('The work').waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('link', { name: 'Call the turnout' }).last().click();
    await page.getByText('Enter the sheet from the wall').click();
    await page.getByLabel('Who came, by number').fill('1-3 99');
    await page.getByText('No numbers of this sheet: 99.').waitFor();
    await page.getByLabel('Who came, by number').fill('1-3');
    await page.getByLabel(/^A: who was on/).fill('1 2');
    await press('Take it over from the sheet');
    await page.getByText('As it stands on the sheet from the wall.').waitFor();
  });
});
