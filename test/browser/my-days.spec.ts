import { jest } from '@jest/globals';
import type { Browser } from 'playwright-core';
import { describeWith } from '../parts/parts.js';
import { axeViolations, openPage, overflow, phone } from './chromium.js';
import { withYard } from './with-yard.js';
import type { Yard } from './yard.js';

// Generous, since the machine may be doing much else.
jest.setTimeout(180_000);

describeWith(['Chromium'], 'my days, on a phone', () => {
  let yard: Yard;
  let browser: Browser;
  withYard((at) => {
    ({ yard, browser } = at);
  });

  it('a volunteer says how often and what not, and makes a calendar address', async () => {
    const cookie = await yard.cookie('volunteer');
    const { context, page, faults } = await openPage(browser, yard.address, { viewport: phone, cookie });
    await page.goto('/days');
    await page.getByLabel('Not more than').selectOption('2');
    await page.getByLabel('No ladders, no staging').check();
    await page.getByRole('button', { name: 'Keep this' }).click();
    await page.getByText('Kept.', { exact: true }).waitFor();
    await page.reload();
    expect(await page.getByLabel('Not more than').inputValue()).toBe('2');
    expect(await page.getByLabel('No ladders, no staging').isChecked()).toBe(true);
    await page.getByRole('button', { name: 'Make an address' }).click();
    const address = await page.getByLabel(/Your secret address/).inputValue();
    expect((await fetch(address)).headers.get('content-type')).toBe('text/calendar; charset=utf-8');
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    expect(faults).toEqual([]);
    await context.close();
  });
});
