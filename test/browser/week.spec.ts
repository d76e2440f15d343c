import { jest } from '@jest/globals';
import type { Browser, Page } from 'playwright-core';
import type { Client } from '../harness/client.js';
import { describeWith } from '../parts/parts.js';
import { axeViolations, desk, openPage, overflow, phone, type Watched } from './chromium.js';
import { withYard } from './with-yard.js';
import type { Yard } from './yard.js';

// Generous, since the machine may be doing much else.
jest.setTimeout(180_000);

/** The coordinator puts the coming week together and posts it, without a pointer. */
describeWith(['Chromium'], 'the coordinator’s week, in a browser', () => {
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

  async function open(viewport: typeof desk): Promise<void> {
    const cookie = await yard.cookie('coordinator');
    watched = await openPage(browser, yard.address, { viewport, cookie });
    page = watched.page;
    await page.goto('/week/2027-03-10');
    await page.getByRole('button', { name: 'Post this week' }).waitFor();
  }

  /** Presses Tab until the control has the focus, as somebody does who has no pointer. */
  async function tabTo(name: RegExp): Promise<void> {
    for (let pressed = 0; pressed < 400; pressed++) {
      const label = await page.evaluate(() => {
        const at = document.activeElement;
        const labels = at && 'labels' in at ? [...(at.labels as NodeListOf<HTMLLabelElement>)] : [];
        return labels.map((one) => one.textContent).join(' ') || (at?.textContent ?? '');
      });
      if (name.test(label.trim())) return;
      await page.keyboard.press('Tab');
    }
    throw new Error(`400 times Tab and not at ${String(name)}`);
  }

  const outcome = () => page.locator('.composer-top .answer');

  test('on a phone a person is put on a place, and the page says what breaks before anything is kept', async () => {
    await open(phone);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    await page.getByRole('button', { name: 'Odalys Brenn', exact: true }).first().click();
    await page
      .getByRole('button', { name: /^Put Odalys Brenn here/ })
      .first()
      .click();
    await outcome().waitFor();
    expect(await outcome().innerText()).toMatch(/Odalys Brenn is on “.+”/);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Undo' }).click();
    await outcome().waitFor({ state: 'detached' });
  });

  test('on a phone the watches after launching are posted to those who said that they can come', async () => {
    watched = await openPage(browser, yard.address, {
      viewport: phone,
      cookie: await yard.cookie('coordinator'),
    });
    page = watched.page;
    await page.goto('/week/watches');
    await page.getByRole('button', { name: 'Post these watches' }).waitFor();
    expect(
      await page.getByRole('combobox', { name: /^Float watch ?, Saturday 16 October 10:00/ }).count(),
    ).toBe(1);
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Post these watches' }).click();
    await page.getByText(/^Posted\. Everybody named is asked/).waitFor();
    // What was refused goes away while it is put right, and the next press is answered by itself.
    await page.getByText('Lay watches on', { exact: true }).click();
    const layOn = page.locator('details', { hasText: 'Lay watches on' });
    await layOn.getByLabel('The first watch is on').fill('2027-11-20');
    await layOn.getByLabel('Hours that she is watched').fill('1');
    await layOn.getByRole('button', { name: 'Lay these watches on' }).click();
    await layOn.getByRole('alert').waitFor();
    await layOn.getByLabel('People on a watch').fill('3');
    expect(await layOn.getByRole('alert').count()).toBe(1);
    await layOn.getByLabel('Hours that she is watched').fill('8');
    await layOn.getByRole('alert').waitFor({ state: 'detached' });
    await layOn.getByRole('button', { name: 'Lay these watches on' }).click();
    await layOn.getByText('The watches are laid on, and their places stand open.').waitFor();
    expect(await layOn.getByRole('alert').count()).toBe(0);
  });

  test('on a phone the yard is closed for a day, which is opened again', async () => {
    watched = await openPage(browser, yard.address, {
      viewport: phone,
      cookie: await yard.cookie('coordinator'),
    });
    page = watched.page;
    await page.goto('/week/closed');
    await page.getByText('Independence Day').waitFor();
    await page.getByText('Close the yard', { exact: true }).click();
    await page.getByLabel('What it is called, or why').fill('Harbor day');
    await page.getByLabel('From').fill('2027-08-04');
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Close these days' }).click();
    await page.getByText('1 day closed. No turnout with people fell on them.').waitFor();
    await page.getByRole('button', { name: /^Open again ?, Wednesday 4 August 2027$/ }).click();
    await page.getByText(/^Opened again/).waitFor();
  });

  test('on a phone the launch day is posted by roles, and another one laid on', async () => {
    watched = await openPage(browser, yard.address, {
      viewport: phone,
      cookie: await yard.cookie('coordinator'),
    });
    page = watched.page;
    await page.goto('/week/all-hands');
    await page.getByRole('heading', { name: /^Launch day, Saturday 16 October/ }).waitFor();
    expect(await page.getByRole('combobox', { name: /^Line handler/ }).count()).toBe(3);
    await page.getByText('Lay an all-hands day on', { exact: true }).click();
    await page.getByRole('combobox', { name: 'What takes all hands' }).selectOption({ label: 'Lift day' });
    await page.getByRole('searchbox', { name: 'Find it' }).fill('relaunch');
    await page.getByRole('radio', { name: /^Relaunch on the lift slot/ }).check();
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await page.getByLabel('On', { exact: true }).fill('2027-11-15');
    await page.getByRole('button', { name: 'Leave out gate and visitors' }).click();
    await page.getByRole('button', { name: 'Lay this day on' }).click();
    await page.getByRole('heading', { name: /^Lift day, Monday 15 November/ }).waitFor();
    expect(await page.getByRole('combobox', { name: /^Gate and visitors/ }).count()).toBe(1);
    await page.getByRole('button', { name: 'Post these days' }).click();
    await page.getByText(/^Posted\. Everybody named is asked/).waitFor();
    await page.getByText('Change the roles of Lift day, Monday 15 November', { exact: true }).click();
    const change = page.locator('details', { hasText: 'Change the roles of Lift day' });
    await change.getByLabel('Role', { exact: true }).last().fill('gate');
    await change.getByLabel('How many').last().fill('2');
    await change.getByRole('button', { name: 'Change the roles', exact: true }).click();
    await change.getByText(/^The roles are changed/).waitFor();
    await page
      .getByRole('combobox', { name: /^Gate ?, Monday 15 November/ })
      .nth(1)
      .waitFor();
    // Somebody else changes the roles while they are typed: nothing of either is lost unseen.
    const first = change.getByLabel('How many').first();
    await first.fill('7');
    await addARole(await yard.client('coordinator'), 'Lift day');
    await change.getByText(/^The day was changed elsewhere since you began/).waitFor();
    expect(await first.inputValue()).toBe('7');
    await change.getByRole('button', { name: 'Change the roles', exact: true }).click();
    await change.getByRole('alert').waitFor();
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    expect(await axeViolations(page)).toEqual([]);
    await change.getByRole('button', { name: 'Start anew from what the day has now' }).click();
    expect(await change.getByLabel('Role', { exact: true }).last().inputValue()).toBe('tide table');
    expect(await first.inputValue()).not.toBe('7');
  });

  test('by keyboard alone: the person, the place, what breaks, another roster, a draft, posted', async () => {
    await open(desk);
    await tabTo(/^Who$/);
    await page.keyboard.type('Odalys');
    await tabTo(/^Where$/);
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('Tab');
    await tabTo(/^Put there$/);
    await page.keyboard.press('Enter');
    await outcome().waitFor();
    expect(await outcome().innerText()).toMatch(/Odalys Brenn is on “.+”/);
    expect(await axeViolations(page)).toEqual([]);

    await tabTo(/^Propose again, keeping 1 marked place$/);
    await page.keyboard.press('Enter');
    await outcome().waitFor({ state: 'detached' });
    expect(
      await page
        .getByRole('checkbox', { name: /^Keep Odalys Brenn on / })
        .first()
        .isChecked(),
    ).toBe(true);

    await tabTo(/^Keep as a draft$/);
    await page.keyboard.press('Enter');
    await page.getByText(/^A draft, kept by Perrin Vaskell on /).waitFor();

    await tabTo(/^Post this week$/);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Since it was posted' }).waitFor();
    expect(await page.getByText('Nothing has changed.').count()).toBe(1);
    expect(await axeViolations(page)).toEqual([]);
  });

  test('on a phone rounds at the pumps are written down and put right, and it says how the water goes', async () => {
    const cookie = await yard.cookie('coordinator');
    watched = await openPage(browser, yard.address, { viewport: phone, cookie });
    page = watched.page;
    await page.goto(`/pumps/${await watchThisMorning(await yard.client('coordinator'))}`);
    const form = page.locator('details', { hasText: 'Write a round down' });
    const depth = form.getByLabel('Water before pumping, inches');
    const write = form.getByRole('button', { name: 'Write it down' });
    await form.getByLabel('At', { exact: true }).fill('06:40');
    await depth.fill('4');
    await write.click();
    await page.getByText('The round is written down.').waitFor();
    await depth.fill('9');
    await form.getByLabel('Strokes pumped').fill('12.5');
    await write.click();
    await form.getByText('Strokes are a whole number from 0 to 100,000, not “12.5”.').waitFor();
    expect(await axeViolations(page)).toEqual([]);
    await form.getByLabel('Strokes pumped').fill('12');
    await write.click();
    await page.getByText(/^The water has been rising since 06:40: from 4 in to 9 in/).waitFor();
    await page.getByText(/^More water is found, .* now, and not at the next round/).waitFor();
    const latest = page.locator('ol.jobs > li').first();
    await latest.getByText('Correct it').click();
    await latest.getByLabel('Water before pumping, inches').fill('4');
    await latest.getByLabel('Why it reads otherwise than before').fill('misread');
    expect(await overflow(page)).toBeLessThanOrEqual(0);
    await latest.getByRole('button', { name: 'Correct this entry' }).click();
    await page.getByText('The water has been level since 06:40: 4 in.').waitFor();
    expect(await latest.getByText('The entry is corrected.').count()).toBe(1);
    expect(await latest.getByText('How it was written before').count()).toBe(1);
    expect(await axeViolations(page)).toEqual([]);
    // Where it cannot be read, the page says so.
    await page.route('**/graphql', (route) =>
      (route.request().postData() ?? '').includes('query PumpLog')
        ? route.fulfill({ json: { errors: [{ message: 'The pump log was not read.' }] } })
        : route.continue(),
    );
    await page.goto('/week/watches');
    await page.getByText('The pump log was not read.').waitFor();
  });
});

/** Adds a role to an all-hands day, as somebody does at another machine. */
async function addARole(client: Client, note: string): Promise<void> {
  const { allHandsProposal: days } = await client.query<{
    allHandsProposal: { turnout: { id: string; note: string; version: number } }[];
  }>('{ allHandsProposal { turnout { id note version } } }');
  const day = days.find(({ turnout }) => turnout.note === note)?.turnout;
  const { allHandsRoles: laid } = await client.query<{
    allHandsRoles: { role: string; count: number; level: number; skill: Id | null; card: Id | null }[];
  }>(
    'query Roles($id: ID!) { allHandsRoles(turnoutId: $id) { role count level skill { id } card { id } } }',
    { id: day?.id },
  );
  const roles = laid.map(({ skill, card, ...one }) => ({
    ...{ ...one, was: one.role, skillId: skill?.id ?? null, cardKindId: card?.id ?? null },
  }));
  const { changeAllHandsRoles: answer } = await client.query<{ changeAllHandsRoles: { __typename: string } }>(
    'mutation Change($id: ID!, $version: Int!, $roles: [AllHandsRoleChangeInput!]!) { changeAllHandsRoles(turnoutId: $id, version: $version, roles: $roles) { __typename } }',
    { id: day?.id, version: day?.version, roles: [...roles, { role: 'tide table', count: 1, level: 0 }] },
  );
  expect(answer.__typename).toBe('AllHandsPayload');
}

interface Id {
  id: string;
}

/** Lays watches on from half an hour after the demo yard’s clock. @returns the first */
async function watchThisMorning(client: Client): Promise<string> {
  const { tasks } = await client.query<{
    tasks: { nodes: { id: string; kind: string; seats: { level: number; skill: Id }[] }[] };
  }>('{ tasks(first: 50, words: "watch") { nodes { id kind seats { level skill { id } } } } }');
  const task = tasks.nodes.find(({ kind }) => kind === 'WORK');
  const [seat] = task?.seats ?? [];
  const { layOnWatches: laid } = await client.query<{ layOnWatches: { watches: Id[] } }>(
    'mutation LayOn($input: WatchesInput!) { layOnWatches(input: $input) { ... on WatchesPayload { watches { id } } } }',
    {
      input: {
        ...{ taskId: task?.id, skillId: seat.skill.id, level: seat.level, people: 2 },
        ...{ on: '2027-03-06', startTime: '07:30', hours: 4, hoursEach: 4 },
      },
    },
  );
  return laid.watches[0]?.id ?? '';
}
