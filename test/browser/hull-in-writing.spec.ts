import { jest } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import { describeWith } from '../parts/parts.js';
import { axeViolations, openPage, overflow, phone, type Watched } from './chromium.js';
import { withYard } from './with-yard.js';
import type { Yard } from './yard.js';

jest.setTimeout(180_000);

describeWith(['Chromium'], 'what the shipwright writes down of the hull, in a browser', () => {
  let yard: Yard;
  let browser: Browser;
  let watched: Watched;
  let page: Page;
  withYard((at) => {
    ({ yard, browser } = at);
  });
  beforeEach(async () => {
    watched = await openPage(browser, yard.address, {
      viewport: phone,
      cookie: await yard.cookie('shipwright'),
    });
    page = watched.page;
  });
  afterEach(async () => {
    expect(Math.max(0, await overflow(page))).toBe(0);
    await watched.context.close();
    expect(watched.faults).toEqual([]);
  });

  const part = (name: string) => page.getByRole('region', { name, exact: true });

  test('a shore that was fitted stands on record, and is struck again', async () => {
    await page.goto('/hull');
    const openings = part('Openings');
    await openings.getByText('Shores, braces and ribbands').click();
    await openings.getByText('One more was fitted').click();
    await openings.getByLabel('From frame').fill('11');
    await openings.getByLabel('To frame').fill('13');
    await openings.getByLabel('Who saw it stand').fill('Perrin Vaskell');
    await openings.getByRole('button', { name: 'It stands' }).click();
    await openings.getByText(/Shores frames 11 to 13, starboard: stands, seen by Perrin Vaskell/).waitFor();
    await openings.getByRole('button', { name: 'It was struck: Shores frames 11 to 13, starboard' }).click();
    await openings.getByText(/Shores frames 11 to 13, starboard: struck on/).waitFor();
  });

  test('a rule of openings is changed with a reason and put back; without one it is refused', async () => {
    await page.goto('/hull');
    const openings = part('Openings');
    await openings.getByText('The rules that count here').click();
    const rule = openings.getByRole('listitem').filter({ hasText: 'of any 3 frames in a row' });
    await rule.getByText('Change it, in my name').click();
    await rule.getByLabel('At most open at once').fill('2');
    await rule.getByRole('button', { name: 'Let this count here' }).click();
    await rule.getByRole('alert').waitFor();
    await rule
      .getByLabel('What holds her instead')
      .fill('Two cross spalls and a strongback at each of them.');
    await rule.getByRole('button', { name: 'Let this count here' }).click();
    await rule.getByText(/^2 of any 3 frames in a row/).waitFor();
    await rule.getByText(/in place of 1 of any 3 frames in a row, by .+: Two cross spalls/).waitFor();
    await rule.getByLabel(/^Back to what is usual/).check();
    await rule.getByLabel('What holds her instead').fill('The strongback was taken away again.');
    await rule.getByRole('button', { name: 'Let this count here' }).click();
    await rule.getByText(/in place of/).waitFor({ state: 'detached' });
    expect(await axeViolations(page)).toEqual([]);
  });

  test('a mark is set, read by two readers twice, and a misread figure is struck and stays', async () => {
    await page.goto('/hull');
    const marks = part('Witness marks');
    await marks.getByText('Set another mark').click();
    await marks.getByLabel('What is measured, and where').fill('Breadth at frame 21, sheer to sheer');
    await marks.getByLabel('At frame').fill('21');
    await marks.getByRole('button', { name: 'Set this mark' }).click();
    const mark = marks
      .getByRole('listitem')
      .filter({ has: page.getByRole('heading', { name: 'Breadth at frame 21, sheer to sheer' }) });
    await mark.getByText('Write down what was read').click();
    await mark.getByLabel('First reader').fill('Perrin Vaskell');
    await mark.getByLabel('Second reader').fill('Odalys Brenn');
    for (const [at, text] of [
      [0, '190 1/8'],
      [1, '190 1/8'],
    ] as const) {
      await mark.getByLabel('Inches').nth(at).fill(text);
      await mark.getByLabel('Read again').nth(at).fill(text);
    }
    await mark.getByRole('button', { name: 'Write them down' }).click();
    await mark.getByText('All its readings').click();
    expect(await mark.getByText(/190 1\/8 in, after blocking, read by Odalys Brenn/).count()).toBe(2);
    await mark.getByText('It was misread').first().click();
    await mark.getByLabel('How it came to be misread').first().fill('The tape hung on a nail head.');
    await mark.getByRole('button', { name: 'Strike this reading' }).first().click();
    await mark.getByText(/; struck by /).waitFor();
    expect(await mark.getByText(/after blocking, read by/).count()).toBe(4);
  });

  test('butts that are laid out by hand are held against the rules before they are chosen', async () => {
    await page.goto('/hull');
    const planking = part('Closing her up');
    await planking.getByText('Lay the butts out by hand, starboard').click();
    await planking.getByLabel(/^Strake 9, open over/).fill('ten');
    await planking.getByRole('button', { name: 'Hold it against the rules' }).click();
    await planking.getByText('Numbers of bays, such as 14, 22.').waitFor();
    const label = await planking.getByText(/^Strake 9, open over/).innerText();
    const [first = 0] = /frames (\d+) to/.exec(label)?.slice(1).map(Number) ?? [];
    await planking.getByLabel(/^Strake 9, open over/).fill(String(first + 4));
    await planking.getByLabel(/^Strake 10, open over/).fill(String(first + 5));
    await planking.getByRole('button', { name: 'Hold it against the rules' }).click();
    await planking.getByText(/^This layout breaks \d+ rule/).waitFor();
    await planking.getByLabel('Why this layout').waitFor();
    const shots = process.env['SHOTS'];
    if (shots) await page.screenshot({ path: `${shots}/hull.png`, fullPage: true });
  });

  test('a finding on a plank joins the survey, and a step of a method is changed with all that belongs to it', async () => {
    await page.goto('/survey');
    await page.getByText('Add a line').click();
    await page.getByLabel('Found on').selectOption('plank');
    await page.getByLabel('Strake', { exact: true }).fill('9');
    await page.getByLabel('Plank', { exact: true }).fill('2');
    await page.getByLabel('What there is to say of it').fill('soft along the upper edge');
    await page.getByRole('button', { name: 'Add this line' }).click();
    await page.getByText(/^Strake 9 plank 2 starboard: renew/).waitFor();
    await page.getByRole('button', { name: 'Show what would change' }).first().click();
    await page.getByRole('heading', { name: 'What would change' }).waitFor();
    await page.getByText(/^Would come: \d/).waitFor();
    await page.getByRole('button', { name: 'Leave the survey as it was' }).click();

    await page.getByText('Change a rate or a step').click();
    await page.getByLabel('A step, or a new one').selectOption({ label: 'steam, hang and wedge' });
    await page.getByLabel('Crew: fewest').fill('6');
    await page.getByLabel('Works well').fill('6');
    await page.getByRole('button', { name: 'Another step that comes first' }).click();
    await page.getByLabel('A step', { exact: true }).last().selectOption({ label: 'on the strake above' });
    await page.getByLabel('Namely').last().selectOption({ label: 'dig out bungs, tag plank' });
    expect(await axeViolations(page)).toEqual([]);
    const shots = process.env['SHOTS'];
    if (shots) await page.screenshot({ path: `${shots}/step.png`, fullPage: true });
    await page.getByRole('button', { name: 'Take this step' }).click();
    await page.getByLabel('Why, for those who come after').fill('Six lift her easier than five.');
    await page.getByRole('button', { name: 'Show what would change' }).click();
    await page.getByRole('heading', { name: 'What would change' }).waitFor();
    await page.getByRole('button', { name: 'Do it, and plan anew' }).click();
    await page
      .getByText(/Six lift her easier than five/)
      .first()
      .waitFor({ state: 'attached' });
  });
});
