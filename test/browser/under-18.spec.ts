import { jest } from '@jest/globals';
import type { Browser } from 'playwright-core';
import { Client } from '../harness/client.js';
import { describeWith } from '../parts/parts.js';
import { axeViolations, openPage, overflow, phone } from './chromium.js';
import { withYard } from './with-yard.js';
import { postWeek, type Yard } from './yard.js';

// Generous, since the machine may be doing much else.
jest.setTimeout(240_000);

const who = { name: 'Cass Underhay', email: 'cass.underhay@example.org' };
const ownPassword = 'old boats and rope';

interface Seen {
  myPlaces: { id: string; state: string }[];
  openPlaces: {
    place: { id: string; task: { hazards: { code: string }[] } };
    alongside: { name: string }[];
  }[];
}

/** Somebody of 17, whose parent has said yes on paper, with the account that the director has just opened. */
describeWith(['Chromium'], 'somebody under 18 on a phone', () => {
  let yard: Yard;
  let browser: Browser;
  let firstPassword: string;

  const undo = withYard(async (at) => {
    ({ yard, browser } = at);
    await postWeek(await yard.client('coordinator'), '2027-03-06');
    const director = await yard.client('director');
    const { volunteers } = await director.query<{ volunteers: { nodes: { id: string; name: string }[] } }>(
      '{ volunteers(first: 50) { nodes { id name } } }',
    );
    const { openAccount } = await director.query<{ openAccount: { oneTimePassword: string } }>(
      `mutation Open($input: OpenAccountInput!) {
        openAccount(input: $input) { ... on OpenAccountPayload { oneTimePassword } }
      }`,
      {
        input: {
          ...who,
          role: 'VOLUNTEER',
          volunteerId: volunteers.nodes.find(({ name }) => name === who.name)?.id,
        },
      },
    );
    firstPassword = openAccount.oneTimePassword;
  });

  test('signs in, and takes with two taps a place without a hazard, beside somebody who is named', async () => {
    const { context, page, faults } = await openPage(browser, yard.address, { viewport: phone });
    undo.push(() => context.close());
    const sound = async () => {
      expect(await axeViolations(page)).toEqual([]);
      expect(await overflow(page)).toBeLessThanOrEqual(0);
    };
    await page.goto('/places');
    await page.getByLabel('E-mail address').fill(who.email);
    await page.getByLabel('Password').fill(firstPassword);
    await page.getByRole('button', { name: 'Sign in' }).click();
    await page.getByRole('heading', { name: 'Choose a password' }).waitFor();
    await sound();
    await page.getByLabel('The password until now').fill(firstPassword);
    await page.getByLabel('The new one').fill(ownPassword);
    await page.getByRole('button', { name: 'Change it' }).click();

    const open = page.getByRole('region', { name: 'Places you may take' }).getByRole('article');
    await open.first().waitFor();
    await sound();
    const cass = new Client(yard.address);
    await cass.signIn(who.email, ownPassword);
    const ask = () =>
      cass.query<Seen>(
        '{ myPlaces { id state } openPlaces { place { id task { hazards { code } } } alongside { name } } }',
      );
    const { openPlaces } = await ask();
    for (const { place, alongside } of openPlaces) {
      const hazards = place.task.hazards.map(({ code }) => code);
      for (const barred of ['machine', 'lead', 'hot-work', 'crush']) expect(hazards).not.toContain(barred);
      expect(alongside).not.toEqual([]);
    }
    const [first] = openPlaces;
    expect(await open.first().textContent()).toContain(`With ${first.alongside[0].name}`);
    await open.first().getByRole('button', { name: 'Take this place' }).click();
    await open.first().getByRole('button', { name: 'Yes, I will be there' }).click();
    await page
      .getByText(/The place is yours/)
      .first()
      .waitFor();
    await sound();
    expect((await ask()).myPlaces).toContainEqual({ id: first.place.id, state: 'TAKEN' });
    expect(faults).toEqual([]);
  });
});
