import { jest } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { describeWith } from '../parts/parts.js';
import { axeViolations, desk, openPage, overflow, phone, type Watched } from './chromium.js';
import { withYard } from './with-yard.js';
import type { Role, Yard } from './yard.js';

// Generous, since the machine may be doing much else.
jest.setTimeout(180_000);

/** The demo yard played through its page: each of the four does their main job, one after the other. */
describeWith(['Chromium'], 'the page, in a browser', () => {
  let yard: Yard;
  let browser: Browser;
  let watched: Watched;
  let page: Page;

  withYard((at) => {
    ({ yard, browser } = at);
  });
  afterEach(async () => {
    await watched.context.close();
    expect(watched.faults).toEqual([]);
  });

  async function open(path: string, options: { viewport?: typeof desk; role?: Role } = {}): Promise<void> {
    const { viewport = desk, role } = options;
    watched = await openPage(browser, yard.address, { viewport, cookie: role && (await yard.cookie(role)) });
    page = watched.page;
    await page.goto(path);
  }

  /** Fills in the form as a person does. */
  async function signIn(role: Role, password = yard.account(role).password): Promise<void> {
    await page.getByLabel('E-mail address').fill(yard.account(role).email);
    await page.getByLabel('Password').fill(password);
    await page.getByRole('button', { name: 'Sign in' }).click();
  }

  const heading = (name: RegExp) => page.getByRole('heading', { level: 1, name });
  const part = (name: string) => page.getByRole('region', { name, exact: true });

  test('a wrong password is refused in words, and the refusal has the focus', async () => {
    await open('/');
    await signIn('director', 'not the password');
    await page.getByRole('alert').and(page.locator(':focus')).waitFor();
    expect(await axeViolations(page)).toEqual([]);
  });

  test('the director sees in one sentence whether she makes the gate, and which work decides it', async () => {
    await open('/');
    await signIn('director');
    await heading(/\d+ in \d+ to make Sat 16 Oct; .* decides?\.$/).waitFor({ timeout: 90_000 });
    expect(await part('The odds').innerText()).toMatch(
      /the Gate, Saturday 16 October\s+.* to be ready by then/,
    );
    expect(await part('Decisions that are due').getByRole('listitem').count()).toBeGreaterThan(0);
    await part('Next hand').getByRole('listitem').first().waitFor({ timeout: 90_000 });
    expect(await part('The gates').innerText()).toMatch(
      /The Gate\s+Saturday 16 October, lift 07:10 to 08:40/,
    );
    expect(await part('The gates').innerText()).toMatch(/She is ready\s+\w+day \d+ \w+/);
    expect(await part('The launch chain').getByRole('listitem').count()).toBeGreaterThan(3);
    expect(await axeViolations(page)).toEqual([]);
  });

  test('the director reckons again, sees it go on, and the new plan comes by itself', async () => {
    await open('/', { role: 'director' });
    const again = page.getByRole('button', { name: 'Reckon again' });
    await again.click();
    await page.getByRole('button', { name: 'Reckoning…' }).waitFor();
    await page.getByText(/A new plan\./).waitFor({ state: 'attached', timeout: 60_000 });
    await again.waitFor();
  });

  test('the coordinator sees next week’s people, reasons and gaps, and posts it', async () => {
    await open('/', { role: 'coordinator' });
    await page.getByRole('button', { name: 'Post this week' }).waitFor();
    expect(await heading(/^The week of Monday/).count()).toBe(1);
    expect(await page.getByRole('article').count()).toBeGreaterThan(0);
    expect(await page.locator('.hand-why').count()).toBeGreaterThan(3);
    expect(await axeViolations(page)).toEqual([]);

    await page.getByRole('button', { name: 'Post this week' }).click();
    await page.getByText(/^Posted\. /).waitFor();
    expect(await page.locator('.hand-why').filter({ hasText: 'asked' }).count()).toBeGreaterThan(3);
    // Work with a crew keeps its cautions when it is posted.
    const crewed = page.locator('.job').filter({ has: page.locator('.hand-why') });
    expect(
      await crewed
        .locator('summary')
        .filter({ hasText: /caution/ })
        .count(),
    ).toBeGreaterThan(3);
    expect(await axeViolations(page)).toEqual([]);
  });

  test('a volunteer on a phone reads the cautions first, then takes and leaves a place in two taps each', async () => {
    await open('/', { viewport: phone });
    await signIn('volunteer');
    const first = part('Places you may take').getByRole('article').first();
    await first.waitFor();
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflow(page)).toBeLessThanOrEqual(0);

    const take = first.getByRole('button', { name: 'Take this place' });
    const cautions = first.getByRole('heading', { name: 'Cautions' });
    const work = (await first.getByRole('heading', { level: 3 }).innerText()).split('\n')[0] ?? '';

    await take.click();
    const yes = first.getByRole('button', { name: 'Yes, I will be there' });
    await cautions.waitFor();
    expect((await cautions.boundingBox())?.y).toBeLessThan((await yes.boundingBox())?.y ?? 0);
    expect(await first.innerText()).toContain('competent person');
    await yes.click();
    await page.getByText(/^The place is yours/).waitFor();
    const mine = part('Where I am expected').getByRole('article').filter({ hasText: work });
    await mine.getByRole('button', { name: 'I can’t come' }).click();
    await mine.getByRole('button', { name: 'Leave this place' }).click();
    await page.getByText(/^You have left/).waitFor();
    await mine.waitFor({ state: 'detached' });
    expect(await axeViolations(page)).toEqual([]);
  });

  test('a place that goes while the volunteer reads is said to be gone', async () => {
    await open('/', { viewport: phone, role: 'volunteer' });
    const first = part('Places you may take').getByRole('article').first();
    await first.getByRole('button', { name: 'Take this place' }).click();

    const elsewhere = await yard.client('volunteer');
    const { openPlaces } = await elsewhere.query<{ openPlaces: { place: { id: string } }[] }>(
      '{ openPlaces { place { id } } }',
    );
    const placeId = openPlaces[0]?.place.id;
    await elsewhere.query('mutation ($placeId: ID!) { takePlace(placeId: $placeId) { __typename } }', {
      placeId,
    });
    await page.getByRole('alert').filter({ hasText: 'no longer open' }).waitFor();
    await elsewhere.query('mutation ($placeId: ID!) { leavePlace(placeId: $placeId) { __typename } }', {
      placeId,
    });
  });

  test('a turnout that is called off while the volunteer has no line is refused on the second tap', async () => {
    await open('/', { viewport: phone, role: 'volunteer' });
    await page.routeWebSocket(/graphql/, (socket) => void socket.close());
    await page.reload();
    const first = part('Places you may take').getByRole('article').first();
    await first.getByRole('button', { name: 'Take this place' }).click();

    const volunteer = await yard.client('volunteer');
    const { openPlaces } = await volunteer.query<{
      openPlaces: { place: { turnout: { id: string; version: number } } }[];
    }>('{ openPlaces { place { turnout { id version } } } }');
    const coordinator = await yard.client('coordinator');
    await coordinator.query(
      `mutation ($id: ID!, $version: Int!) {
        cancelTurnout(id: $id, version: $version, reason: "Gale warning") { __typename }
      }`,
      openPlaces[0]?.place.turnout,
    );
    await first.getByRole('button', { name: 'Yes, I will be there' }).click();
    await page.getByRole('alert').and(page.locator(':focus')).waitFor();
    expect(await axeViolations(page)).toEqual([]);
  });

  test('the shipwright enters a tally that finishes the work, and passes it', async () => {
    await open('/work', { role: 'shipwright' });
    await page.getByLabel('That is').selectOption('CLEAR');
    await page.getByRole('list').getByRole('link').first().waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.locator('.tasks a').first().click();
    await part('Tallies').waitFor();
    expect(await page.getByText('competent person').count()).toBeGreaterThan(0);
    expect(await axeViolations(page)).toEqual([]);

    // The first answer gets lost on its way: what was entered is entered, and once.
    let sent = 0;
    await page.route('**/graphql', async (route) => {
      if (!(route.request().postData() ?? '').includes('mutation EnterTally')) return route.fallback();
      sent += 1;
      const answer = await route.fetch();
      return sent === 1 ? route.abort() : route.fulfill({ response: answer });
    });
    await page.getByLabel('Hours of work, of all hands together').fill('1');
    await page.getByRole('button', { name: 'Enter the tally' }).click();
    await page.getByText('No line just now. This is kept here').waitFor();
    expect(watched.faults.splice(0).filter((fault) => !fault.includes('ERR_FAILED'))).toEqual([]);
    await page.reload();
    await page.getByText('Done: The tally is entered. Thank you.').waitFor({ timeout: 60_000 });
    expect(sent).toBe(2);
    await page.getByRole('button', { name: /^Read/ }).click();
    expect(await part('Tallies').getByText('Several hands: 1 hour').count()).toBe(1);

    await page.getByLabel('Hours of work, of all hands together').fill('2');
    await page.getByLabel('This piece of work is finished').check();
    await page.getByRole('button', { name: 'Enter the tally' }).click();
    await page.getByText('The tally is entered. Thank you.').waitFor();
    await page.locator('.lead').getByText('It is shown, waits for a say-so.').waitFor();
    await page.getByRole('button', { name: 'Pass this work' }).click();
    await page.locator('.lead').getByText('It is passed.').waitFor();
  });
});
