import { jest } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { describeWith } from '../parts/parts.js';
import { axeViolations, desk, openPage, overflow, phone, type Watched } from './chromium.js';
import { withYard } from './with-yard.js';
import type { Role, Yard } from './yard.js';

jest.setTimeout(240_000);

/** The hours of a day at the demo yard, from the sign-on to the report that a funder gets. */
describeWith(['Chromium'], 'hours that count, in a browser', () => {
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

  const open = async (path: string, role: Role, viewport = desk) => {
    watched = await openPage(browser, yard.address, { viewport, cookie: await yard.cookie(role) });
    page = watched.page;
    await page.goto(path);
    await page.getByRole('heading', { level: 1 }).waitFor();
  };
  const clockAt = async (to: string) => {
    const director = await yard.client('director');
    await director.query('mutation ($to: DateTime!) { moveYardClock(to: $to) { __typename } }', { to });
  };

  test('a volunteer signs on and off on a phone', async () => {
    await clockAt('2027-04-03T16:00:00Z');
    await open('/my-hours', 'volunteer', phone);
    await page.getByRole('button', { name: 'Sign on', exact: true }).click();
    await page.getByRole('heading', { name: 'You are signed on' }).waitFor();
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    await clockAt('2027-04-03T18:30:00Z');
    await page.getByRole('button', { name: 'Sign off', exact: true }).click();
    await page.getByText('2 h 30').first().waitFor();
  });

  test('work that a gate keeps somebody from is refused in words, with the ways out', async () => {
    const shipwright = await yard.client('shipwright');
    const { tasks } = await shipwright.query<{ tasks: { edges: { node: { id: string; title: string } }[] } }>(
      '{ tasks(first: 1, words: "Frame stock seen") { edges { node { id title } } } }',
    );
    const seen = tasks.edges[0].node;
    await open('/my-hours', 'volunteer', phone);
    const choose = page.getByLabel('To what');
    // As on a page that was opened before the place went to somebody else.
    await choose.evaluate((select, id) => {
      select.append(new Option('a place of the morning', id));
    }, seen.id);
    await choose.selectOption({ label: 'a place of the morning' });
    await page.getByRole('button', { name: 'Sign on', exact: true }).click();
    const alert = page.getByRole('alert');
    await alert.getByText(/^This place asks for Sawing/).waitFor();
    await alert.getByText('Sign on without naming work, or ask the coordinator for a place.').waitFor();
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
  });

  test('the coordinator enters the day’s paper in one go, and prints the list for the insurer', async () => {
    await open('/hours', 'coordinator');
    const choose = page.getByLabel('Of which turnout');
    await choose.selectOption({ label: 'Saturday 3 April, 09:00 to 14:00' });
    await page.getByLabel('Somebody else came').selectOption({ index: 1 });
    for (const box of await page.locator('.sheet-line input[type=checkbox]').all()) await box.uncheck();
    const added = page.locator('.sheet-line').last();
    await added.getByRole('checkbox').check();
    await added.getByLabel('To').fill('11:00');
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Enter the ticked lines' }).click();
    await page.getByText('2 h are entered for Saturday 3 April.').first().waitFor();
    await page.getByRole('link', { name: /crew list/ }).click();
    await page.getByRole('heading', { level: 1, name: 'Crew list of the day' }).waitFor();
    await page.getByText('Checked by').waitFor();
    expect(await axeViolations(page)).toEqual([]);
  });

  test('what is tallied and shown is sent back or passed on the shipwright’s walk-round', async () => {
    const shipwright = await yard.client('shipwright');
    const { tasks } = await shipwright.query<{ tasks: { edges: { node: { id: string; title: string } }[] } }>(
      '{ tasks(first: 1, state: CLEAR) { edges { node { id title } } } }',
    );
    const task = tasks.edges[0].node;
    await shipwright.query(
      'mutation ($id: ID!) { enterTally(input: { taskId: $id, minutes: 60, finished: true }) { __typename } }',
      { id: task.id },
    );
    await open('/walk', 'shipwright', phone);
    const shown = page.getByRole('region', { name: 'Shown to you' });
    await shown.getByRole('link', { name: task.title }).waitFor();
    await shown.getByText('Pass it or send it back').first().click();
    expect(await axeViolations(page)).toEqual([]);
    await shown.getByRole('button', { name: 'Pass this work' }).first().click();
    await shown.getByText('Nothing is shown just now.').waitFor();
  });

  test('a turnout is closed with its round, and a near miss is reported in three lines', async () => {
    await open('/safety', 'coordinator');
    await page.getByText('Report it in three lines').click();
    await page.getByLabel('What happened').fill('A plank slid off the horse');
    await page.getByLabel('Where', { exact: true }).fill('the shed door');
    await page.getByRole('button', { name: 'Report it', exact: true }).click();
    await page.getByText('A plank slid off the horse').first().waitFor();
    expect(await axeViolations(page)).toEqual([]);
    const round = page.getByRole('region', { name: 'The closing round' });
    for (const box of await round.getByRole('checkbox').all()) await box.check();
    await round.getByRole('button', { name: /^I went round/ }).click();
    await page
      .getByText('Every turnout that people came to has had its round, and nobody is missing')
      .waitFor();
  });

  test('the days are closed, and the hours come out as a grant report that stays as it was', async () => {
    await clockAt('2027-07-02T16:00:00Z');
    const director = await yard.client('director');
    await director.query(
      `mutation {
        setGrant(input: { name: "Frames", funder: "Harbor Trust", from: "2027-04-01", to: "2027-06-30" }) { __typename }
      }`,
    );
    await open('/hours', 'coordinator');
    await page.getByText('Close days for good').click();
    await page.getByLabel('First day', { exact: true }).fill('2027-04-01');
    await page.getByLabel('Last day, which must be over').fill('2027-06-30');
    await page.getByRole('button', { name: 'Close these days' }).click();
    await page.getByText('The days are closed.').first().waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.goto('/hours/grants');
    await page.getByRole('button', { name: 'See what it would say' }).click();
    await page.getByRole('button', { name: 'Make this report and keep it' }).click();
    await page.getByText('As it was made').waitFor();
    await page.getByText('$108.00').first().waitFor();
    expect(await axeViolations(page)).toEqual([]);
  });
});
