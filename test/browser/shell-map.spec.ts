import { jest } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { describeWith } from '../parts/parts.js';
import { axeViolations, desk, openPage, overflow, phone, type Watched } from './chromium.js';
import { withYard } from './with-yard.js';
import type { Role, Yard } from './yard.js';

jest.setTimeout(180_000);

describeWith(['Chromium'], 'the shell map, in a browser', () => {
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

  async function open(role: Role, viewport = desk): Promise<void> {
    watched = await openPage(browser, yard.address, { viewport, cookie: await yard.cookie(role) });
    page = watched.page;
    await page.goto('/');
    await map().waitFor();
  }

  const map = () => page.getByRole('grid');
  const focused = () => page.locator(':focus');

  test('director and shipwright see it first, with what is open today and what will be in a month', async () => {
    for (const role of ['director', 'shipwright'] as const) {
      await open(role);
      const shell = page.getByRole('region', { name: 'The shell' });
      await shell.getByText(/^Today nothing is open\.$/).waitFor();
      await shell.getByText(/^By Sunday .+, if the plan holds, .+(out|off)/).waitFor();
      if (role === 'director') await watched.context.close();
    }
  });

  test('the slider runs through the weeks of the plan, and every piece says what it is without colour', async () => {
    await open('shipwright');
    const slider = page.getByRole('slider');
    expect(await slider.getAttribute('aria-valuetext')).toBe('today, as it really is');
    expect(await map().getByText('open', { exact: true }).count()).toBe(0);
    await page.getByRole('button', { name: 'When most is open' }).click();
    expect(await slider.getAttribute('aria-valuetext')).toMatch(/^the week to Sunday .+, by the plan$/);
    expect(await map().getByText('open', { exact: true }).count()).toBeGreaterThan(6);
    await slider.focus();
    await page.keyboard.press('End');
    await map().getByText('closed', { exact: true }).first().waitFor();
    expect(await map().getByText('open', { exact: true }).count()).toBe(0);
    expect(await axeViolations(page)).toEqual([]);
  });

  test('the keyboard goes from piece to piece in all four directions and opens one', async () => {
    await open('shipwright');
    await page.getByRole('gridcell', { name: /^frame 12 starboard/ }).focus();
    await page.keyboard.press('ArrowRight');
    expect(await focused().getAttribute('data-cell')).toBe('frame-13-starboard');
    await page.keyboard.press('ArrowUp');
    expect(await focused().getAttribute('data-cell')).toMatch(/^strake-1-plank-\d-starboard$/);
    await page.keyboard.press('ArrowUp');
    expect(await focused().getAttribute('data-cell')).toMatch(/^strake-2-plank-\d-starboard$/);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Home');
    expect(await focused().getAttribute('data-cell')).toMatch(/^frame-\d+-starboard$/);
    await page.getByRole('gridcell', { name: /^frame 13 starboard/ }).focus();
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Frame 13 starboard' }).waitFor();
    await page.getByText('Nothing is opened before her shape has been read after blocking.').waitFor();
    await page.getByText(/this program cannot tell that a hull is safe/).waitFor();
    expect(await page.locator('[role=gridcell][tabindex="0"]').count()).toBe(1);
  });

  test('a piece tells its tallies, the days that the plan gives its work, and its tags', async () => {
    await open('shipwright');
    await page.goto('/hull');
    await page.getByRole('gridcell', { name: /^strake 9 plank 2 starboard/ }).click();
    const piece = page.getByRole('region', { name: 'Strake 9 plank 2 starboard' });
    await piece
      .getByText(/0 of \d+ nails; planned (on|from) /)
      .first()
      .waitFor();
    await piece.getByRole('heading', { name: 'Tags on it' }).waitFor();
    const tag = piece.getByRole('link', { name: /^[0-9A-Z]{3}-[0-9A-Z]{3}$/ });
    await tag.first().click();
    await page.getByRole('heading', { level: 1, name: /strake 9 plank 2/i }).waitFor();
  });

  test('a plank that somebody found off is off on the map, and on a phone nothing is cut off', async () => {
    await open('shipwright', phone);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    const plank = page.getByRole('gridcell', { name: /^strake 8 plank 2 starboard: standing/ });
    await plank.click();
    const piece = page.getByRole('region', { name: 'Strake 8 plank 2 starboard' });
    await piece.getByText('Say what you see at the yard').click();
    await piece.getByLabel('Who saw it').fill('Emeric Holloran');
    await piece.getByRole('button', { name: 'Write it down' }).click();
    await page.getByRole('gridcell', { name: /^strake 8 plank 2 starboard: open/ }).waitFor();
    await page.getByText(/^Today 1 plank is off \(strake 8\)\.$/).waitFor();
    expect(await axeViolations(page)).toEqual([]);
  });
});
