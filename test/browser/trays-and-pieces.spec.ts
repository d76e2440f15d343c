import { readFile } from 'node:fs/promises';
import { jest } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { describeWith } from '../parts/parts.js';
import { axeViolations, desk, openPage, overflow, phone, type Watched } from './chromium.js';
import { withYard } from './with-yard.js';
import type { Role, Yard } from './yard.js';

jest.setTimeout(180_000);

/** What comes off and finds its way back: trays and pieces, at a desk and with a thumb. */
describeWith(['Chromium'], 'trays and pieces, in a browser', () => {
  let yard: Yard;
  let browser: Browser;
  let watched: Watched;
  let page: Page;
  withYard(async (at) => {
    ({ yard, browser } = at);
    const shipwright = await yard.client('shipwright');
    await shipwright.query('mutation { setUpTrays { __typename } }');
    await shipwright.query('mutation { tagWhatOpens { __typename } }');
  });
  afterEach(async () => {
    await watched.context.close();
    expect(watched.faults).toEqual([]);
  });

  async function open(path: string, role: Role, viewport = phone): Promise<void> {
    watched = await openPage(browser, yard.address, { viewport, cookie: await yard.cookie(role) });
    page = watched.page;
    await page.goto(path);
    await page.getByRole('heading', { level: 1 }).waitFor();
  }
  const part = (name: string) => page.getByRole('region', { name, exact: true });
  const fitsAndReads = async () => {
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
  };

  test('what came out is said on a phone, and hours and nails are on the work as well', async () => {
    await open('/trays', 'coordinator');
    await page.getByLabel('Find').fill('strake 9');
    await page.locator('.tray-list a').first().waitFor();
    await fitsAndReads();
    await page.locator('.tray-list a').first().click();
    const more = page.getByRole('button', { name: 'One more: Drawn whole' });
    for (let taps = 0; taps < 3; taps += 1) await more.click();
    await page.getByRole('spinbutton', { name: 'Pulled through the plank' }).fill('1');
    await page.getByRole('spinbutton', { name: 'Heads off' }).fill('2');
    await page.getByLabel('Hours of work, of all hands together').fill('1.5');
    await fitsAndReads();
    await page.getByRole('button', { name: 'Enter it' }).click();
    await page
      .getByText(/^Entered at tray/)
      .first()
      .waitFor();
    await part('How it stands').getByText('3 drawn, 1 pulled through and 2 heads off').waitFor();
    await fitsAndReads();
    await part('How it stands').getByRole('link').first().click();
    await page.getByText('is under way').waitFor();
    expect(await page.locator('main').innerText()).toContain('enter the work at tray');
  });

  test('a volunteer is told what has to come before, and nothing is changed', async () => {
    await open('/trays', 'volunteer');
    await page.getByLabel('Find').fill('strake 10');
    await page.locator('.tray-list a').first().click();
    await page.getByRole('spinbutton', { name: 'Drawn whole' }).fill('3');
    await page.getByRole('button', { name: 'Enter it' }).click();
    const refusal = page.getByRole('alert').and(page.locator(':focus'));
    await refusal.waitFor();
    expect(await refusal.innerText()).toMatch(/pull plank nails to trays" waits for ".+"/);
    await part('How it stands').getByText('36 still in').waitFor();
    await fitsAndReads();
  });

  test('more than there are is refused in words that lead to the count, and nothing is changed', async () => {
    await open('/trays', 'coordinator');
    await page.getByLabel('Find').fill('strake 10');
    await page.locator('.tray-list a').first().click();
    await page.getByRole('spinbutton', { name: 'Drawn whole' }).fill('37');
    await page.getByRole('button', { name: 'Enter it' }).click();
    const refusal = page.getByRole('alert').and(page.locator(':focus'));
    await refusal.waitFor();
    expect(await refusal.innerText()).toContain('1 more than there are');
    await refusal.getByRole('link').click();
    expect(await page.locator(':focus').getAttribute('id')).toBe('tray-drawn');
    await part('How it stands').getByText('36 still in').waitFor();
  });

  test('the shipwright makes work of a head that came through, and chooses how much care', async () => {
    await open('/trays', 'shipwright', desk);
    await part('Plank nails').waitFor();
    expect(await part('Plank nails').innerText()).toMatch(/to order (by|now)/);
    expect(await axeViolations(page)).toEqual([]);
    const care = part('How much care: plank nails');
    await care.getByLabel('Why').fill('the nails are part of her');
    await care.getByLabel('Care', { exact: true }).selectOption('SAVE_ALL');
    await care.getByRole('button', { name: 'Choose this care' }).click();
    await care.getByText(/Chosen: save all/).waitFor();
    await page.getByLabel('Find').fill('S9B');
    await page.locator('.tray-list a').first().click();
    await page.getByRole('button', { name: /repair of the plank/ }).click();
    await page.getByText('came through the plank').waitFor({ state: 'detached' });
    await page.goto('/work');
    await page.getByLabel('Find').fill('came through');
    await page.getByRole('link', { name: /mend where 1 head came through/ }).waitFor();
  });

  test('the address on a tag leads to the piece, its next step and its pictures; one wrong sign is mended', async () => {
    await open('/pieces', 'volunteer');
    await page.locator('.piece-list a').first().waitFor();
    await fitsAndReads();
    const code = (await page.locator('.piece-list .tag-code').first().innerText()).trim();
    await page.goto(`/pieces/${code}`);
    await part('What is next').getByRole('link').waitFor();
    await page.locator('#picture-file').setInputFiles({
      name: 'plank.png',
      mimeType: 'image/png',
      buffer: Buffer.from(
        'iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAQAAAC1HAwCAAAAC0lEQVR42mNk+A8AAQUBAScY42YAAAAASUVORK5CYII=',
        'base64',
      ),
    });
    await page.getByLabel('What it shows').fill('inboard face');
    await page.getByRole('button', { name: 'Add the picture' }).click();
    const picture = page.getByRole('img', { name: 'inboard face' });
    await picture.waitFor();
    // Asked again and again over the debugger's line: the page's own policy lets no string be waited for in it.
    const width = () => page.evaluate<number>(`document.querySelector('.pictures img')?.naturalWidth ?? 0`);
    while ((await width()) === 0) await page.waitForTimeout(100);
    await fitsAndReads();
    const wrong = `${code.startsWith('7') ? '8' : '7'}${code.slice(1)}`;
    await page.goto(`/pieces/${wrong.replace('-', '').toLowerCase()}`);
    await page.getByText(/One sign was wrong/).waitFor();
    await page.goto('/pieces/ABC');
    await page.getByText(/no code of a tag/).waitFor();
    await fitsAndReads();
  });

  test('tags are printed with square, code and place, and nothing of the page around them', async () => {
    await open('/pieces/print', 'shipwright', desk);
    await page
      .getByRole('img', { name: /^Square of tag/ })
      .nth(5)
      .waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false);
    expect(await page.locator('header.frame').isVisible()).toBe(false);
    const tags = page.locator('.tag');
    expect(await tags.first().innerText()).toMatch(/[2-9A-Z]{3}-[2-9A-Z]{3}/);
    expect((await tags.first().locator('svg path').getAttribute('d'))?.length).toBeGreaterThan(500);
  });

  test('the handover pack tells each timber whole for the next crew and short for visitors', async () => {
    await open('/pieces/handover', 'shipwright', desk);
    await page.getByRole('heading', { level: 2, name: 'Frame 18 starboard' }).waitFor();
    expect(await page.locator('main').innerText()).toContain('renew');
    expect(await axeViolations(page)).toEqual([]);
    const saved = page.waitForEvent('download');
    await page.getByRole('button', { name: 'Save it as one file, with its pictures' }).click();
    const file = await saved;
    expect(file.suggestedFilename()).toMatch(/^[a-z-]+-what-was-done-to-her\.html$/);
    const html = await readFile(await file.path(), 'utf8');
    expect(html).toContain('Frame 18 starboard');
    // The picture that a volunteer has just added lies in the file itself.
    expect(html).toMatch(/<img [^>]*src="data:image\/(png|jpeg|webp);base64,/);
    expect(html).not.toMatch(/src="(?!data:)/);
    await page.getByLabel('How much').selectOption('short');
    await page.getByRole('heading', { level: 2, name: 'Frame 18 starboard' }).waitFor({ state: 'detached' });
    await page.emulateMedia({ media: 'print' });
    expect(await page.getByLabel('How much').isVisible()).toBe(false);
  });
});
