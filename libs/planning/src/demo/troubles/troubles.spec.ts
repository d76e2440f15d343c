import { readFileSync } from 'node:fs';
import { daysBetween } from '@ribband/platform';
import { Outlooks } from '../../outlook/outlooks.service.js';
import { TestHouse } from '../../planning.fixture.js';
import { Plans } from '../../plans/plans.service.js';
import { YardBook } from '../../yard/yard-book.service.js';
import { allTroubles } from './all-troubles.js';
import { Troubles } from './troubles.service.js';

const file = new URL('../../../../../fixtures/demo-yard.json', import.meta.url);

/** Days by which chance alone may move the even day: other plans are found each time. */
const luck = 9;
/** And the odds: a standard error of 300 futures is 0.03. */
const oddsLuck = 0.08;

describe('troubles played on the demo yard, one after the other', () => {
  let house: TestHouse;
  beforeAll(async () => {
    house = await TestHouse.open('sqlite');
    const document: unknown = JSON.parse(readFileSync(file, 'utf8'));
    const read = await house.app.get(YardBook).import(house.caller('director'), document, false);
    expect(Array.isArray(read)).toBe(false);
    await house.settled(240_000);
    // A plan that was searched for longer, so that what follows is the trouble's doing and not the search's.
    await house.app.get(Plans).ask(house.caller('director'), 20);
    await house.settled(240_000);
  }, 300_000);
  afterAll(() => house.close());

  it.each(allTroubles)(
    '$title',
    async ({ key, moves, reason }) => {
      const director = house.caller('director');
      const before = await house.app.get(Outlooks).now(director);
      await house.app.get(Troubles).play(director, key);
      await house.settled(240_000);
      const after = await house.app.get(Outlooks).now(director);
      expect(after?.isOfPlan).toBe(true);
      const moved = daysBetween(before?.evenOn ?? '', after?.evenOn ?? '');
      if (moves === 'later') expect(moved).toBeGreaterThan(-luck);
      else expect(Math.abs(moved)).toBeLessThanOrEqual(luck);
      if (moves === 'later') expect(after?.gateOdds).toBeLessThanOrEqual((before?.gateOdds ?? 0) + oddsLuck);
      expect(after?.trend.marks.at(-1)?.reasons).toContain(reason);
      expect((await house.app.get(Troubles).list(director)).find((one) => one.key === key)?.wasPlayed).toBe(
        true,
      );
    },
    300_000,
  );

  it('none of them at a real yard, and none by a volunteer', async () => {
    await expect(house.app.get(Troubles).play(house.caller('volunteer'), 'sawyer-away')).rejects.toThrow();
    await expect(house.app.get(Troubles).play(house.caller('director'), 'no-such')).rejects.toThrow(
      'no such',
    );
  });
});
