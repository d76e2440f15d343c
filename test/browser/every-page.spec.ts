import { jest } from '@jest/globals';
import type { Browser } from 'playwright-core';
import { describeWith } from '../parts/parts.js';
import { axeViolations, desk, openPage, overflow, phone } from './chromium.js';
import { withYard } from './with-yard.js';
import type { Role, Yard } from './yard.js';

jest.setTimeout(180_000);

/** Each page once, as somebody who can do most on it, in the window in which that person looks at it. */
const pages: { role: Role; viewport: typeof desk; paths: string[] }[] = [
  {
    role: 'director',
    viewport: desk,
    paths: [
      ...['', '/what-if', '/record', '/letter', '/report', '/troubles'].map((behind) => `/outlook${behind}`),
      '/yard',
      '/accounts',
      '/account',
      '/hours/grants',
      '/nowhere',
    ],
  },
  {
    role: 'coordinator',
    viewport: desk,
    paths: ['/week/2027-06-07', '/call', '/call/badges', '/crew', '/permits', '/hours', '/safety'],
  },
  {
    role: 'shipwright',
    viewport: desk,
    paths: ['/hull', '/walk', '/work', '/survey', '/trays', '/pieces', '/timber'],
  },
  {
    role: 'volunteer',
    viewport: phone,
    paths: ['/places', '/days', '/my-hours', '/my-hours/letter', '/safety', '/trays', '/pieces'],
  },
];

describeWith(['Chromium'], 'every page', () => {
  let yard: Yard;
  let browser: Browser;

  withYard((at) => {
    ({ yard, browser } = at);
  });

  test.each(pages)(
    'of the $role: axe finds nothing, nothing is cut off on a phone, nothing is fetched from elsewhere',
    async ({ role, viewport, paths }) => {
      const cookie = await yard.cookie(role);
      const { context, page, faults } = await openPage(browser, yard.address, { viewport: phone, cookie });
      for (const path of paths) {
        await page.setViewportSize(phone);
        await page.goto(path);
        await page.getByRole('heading', { level: 1 }).waitFor();
        // A page may ask several questions at once.
        await page
          .getByText(/^Looking up/)
          .first()
          .waitFor({ state: 'detached' });
        expect({ path, cutOff: Math.max(0, await overflow(page)) }).toEqual({ path, cutOff: 0 });
        await page.setViewportSize(viewport);
        // A few folds open, so that what they hold is looked at too.
        await page.evaluate(
          `[...document.querySelectorAll('main details')].slice(0, 6).forEach((fold) => { fold.open = true; })`,
        );
        expect({ path, violations: await axeViolations(page) }).toEqual({ path, violations: [] });
        expect(await page.getByRole('heading', { level: 1 }).count()).toBe(1);
      }
      await context.close();
      expect(faults).toEqual([]);
    },
  );

  test('the director finds the task that holds the launch with the keyboard alone', async () => {
    const { context, page, faults } = await openPage(browser, yard.address);
    const { email, password } = yard.account('director');
    const press = (key: string) => page.keyboard.press(key);
    /** Tabs on until the element with this name has the focus, as a person would. */
    const tabTo = async (role: 'link' | 'button' | 'textbox', name: RegExp) => {
      const wanted = page.getByRole(role, { name }).and(page.locator(':focus'));
      for (let presses = 0; presses < 60; presses += 1) {
        await press('Tab');
        if (await wanted.count()) return;
      }
      throw new Error(`no ${role} named ${name} is reached with the keyboard`);
    };
    await page.goto('/');
    await page.getByRole('heading', { level: 1 }).and(page.locator(':focus')).waitFor();
    await tabTo('textbox', /E-mail/);
    await page.keyboard.type(email);
    await press('Tab');
    await page.keyboard.type(password);
    await press('Enter');
    const chain = page.getByRole('region', { name: 'The launch chain' });
    const knot = chain.getByRole('link').first();
    await knot.waitFor();
    const title = await knot.innerText();
    await tabTo('link', new RegExp(title.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')));
    // What has the focus can be seen to have it.
    expect(await knot.evaluate((link) => getComputedStyle(link).outlineStyle)).not.toBe('none');
    await press('Enter');
    await page.getByRole('heading', { level: 1, name: title }).and(page.locator(':focus')).waitFor();
    await page.getByRole('heading', { name: 'Cautions' }).waitFor();
    await context.close();
    expect(faults).toEqual([]);
  });
});
