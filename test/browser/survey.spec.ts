import { jest } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { describeWith } from '../parts/parts.js';
import { axeViolations, desk, openPage, overflow, phone } from './chromium.js';
import { withYard } from './with-yard.js';
import type { Yard } from './yard.js';

// Generous, since the machine may be doing much else.
jest.setTimeout(180_000);

/** The shipwright finds frame 19 sound and frame 20 decayed, and the yard is planned anew. */
describeWith(['Chromium'], 'the survey, in a browser', () => {
  let yard: Yard;
  let browser: Browser;
  withYard((at) => {
    ({ yard, browser } = at);
  });

  async function addLine(page: Page, frame: string, condition: string, cause: string): Promise<void> {
    await page.getByLabel('From frame').fill(frame);
    await page.getByLabel('To frame').fill(frame);
    await page.getByLabel('Futtocks', { exact: true }).fill('3, 4');
    await page.getByLabel('What it is').selectOption({ label: condition });
    await page.getByLabel('Why it rotted').selectOption({ label: cause });
    await page.getByRole('button', { name: 'Add this line' }).click();
  }

  test.each([
    ['on a phone, shown only', phone, false],
    ['on a desk, and done', desk, true],
  ])('a line is changed %s', async (name, viewport, doIt) => {
    const cookie = await yard.cookie('shipwright');
    const { context, page, faults } = await openPage(browser, yard.address, { viewport, cookie });
    await page.goto('/survey');
    await page.getByText('Frames 12 to 19 starboard, futtocks 3 and 4').first().waitFor();
    await page.getByText('Add a line').click();
    await addLine(page, '19', 'sound', 'no decay, or not known');
    await addLine(page, '20', 'renew', 'Deck edge over frames 12 to 19 starboard');
    await page.getByLabel('Why, for those who come after').first().fill('Drilled again at the heads.');
    await page.getByRole('button', { name: 'Show what would change' }).click();
    await page.getByText(/tasks are dropped/).waitFor();
    await page.getByText(/^Would come: \d+/).click();
    await page.getByText('Frame 20 starboard: saw futtocks to bevel').waitFor();
    expect(await axeViolations(page)).toEqual([]);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    const shots = process.env['SHOTS'];
    if (shots) await page.screenshot({ path: `${shots}/survey-${name.slice(5, 9)}.png`, fullPage: true });
    if (doIt) {
      await page.getByRole('button', { name: 'Do it, and plan anew' }).click();
      await page.getByText('Frame 20 starboard, futtocks 3 and 4').waitFor();
      await page.goto('/work');
      await page.getByText('Frame 20 starboard').first().waitFor();
    }
    await context.close();
    expect(faults).toEqual([]);
  });
});
