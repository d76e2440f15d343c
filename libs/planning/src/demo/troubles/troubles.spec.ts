import { readFileSync } from 'node:fs';
import { ComputeJob, daysBetween } from '@ribband/platform';
import type { OutlookModel } from '../../outlook/outlook.types.js';
import { Outlooks } from '../../outlook/outlooks.service.js';
import { TestHouse } from '../../planning.fixture.js';
import { Plans } from '../../plans/plans.service.js';
import { YardBook } from '../../yard/yard-book.service.js';
import { PlayOn } from '../play-on.service.js';
import { allTroubles } from './all-troubles.js';
import { Troubles } from './troubles.service.js';

const file = new URL('../../../../../fixtures/demo-yard.json', import.meta.url);

/** Long enough that what moves later is the trouble's doing and not the search's. */
const searchSeconds = 6;
const patience = 240_000;
/** By so much another search may change the odds: common practice, no source. */
const luck = 0.02;

const onAnyDay = allTroubles.filter(({ waitsFor }) => !waitsFor);
const onASteamDay = allTroubles.filter(({ waitsFor }) => waitsFor);

/** What the yard has to answer when it is played, in its own words. */
const answers: Partial<Record<string, RegExp>> = {
  'heat-day': /^91 °F: 10 minutes’ rest in the shade in every two hours/,
  'minor-at-the-band-mill': /Cass Underhay does not get the place\..*(18|age|under)/,
  'breadth-opens': /look at shores and braces/,
  'trays-mixed': /^Tray S11C has 23 of its 36 plank nails; 9 are lost and 4 stand in S11B\./,
  'first-aid-expired': /first-aid card ran out on [^]*The week says at Sun .*: No first-aid card that day/,
  'four-on-steam-day': /“[^”]*(Steam|hang)[^”]*” waits: .+/,
};

describe('a trouble played on the demo yard moves the sentence at the top the right way, with its reason', () => {
  let base: TestHouse;
  let steamDay: TestHouse;

  const looked = async (house: TestHouse): Promise<OutlookModel> => {
    await house.settled(patience, ['plan', 'forecast']);
    const failed = await house.database.read.findBy(ComputeJob, { state: 'failed' });
    expect(failed).toEqual([]);
    const outlook = await house.app.get(Outlooks).now(house.caller('director'));
    if (!outlook?.isOfPlan) throw new Error('the newest plan has a forecast');
    return outlook;
  };

  const waits = async (house: TestHouse): Promise<string | null> => {
    const listed = await house.app.get(Troubles).list(house.caller('director'));
    const steam = listed.find(({ key }) => key === 'four-on-steam-day');
    if (!steam) throw new Error('a steam day is among the troubles');
    return steam.waitsUntil;
  };

  beforeAll(async () => {
    base = await TestHouse.open('sqlite');
    const director = base.caller('director');
    const read = await base.app
      .get(YardBook)
      .import(director, JSON.parse(readFileSync(file, 'utf8')) as unknown, false);
    expect(Array.isArray(read)).toBe(false);
    await looked(base);
    await base.app.get(Plans).ask(director, searchSeconds);
    await looked(base);
    steamDay = await base.fork();
    // A newer plan may steam on another day: then they go by until that one, as at the page.
    for (let gone = 0; gone < 5 && (await waits(steamDay)) !== null; gone++) {
      await steamDay.app.get(Troubles).letDaysGoBy(director, 'four-on-steam-day');
      await looked(steamDay);
    }
  }, 5 * patience);
  afterAll(async () => {
    await base.close();
    await steamDay.close();
  });

  const play = async (from: TestHouse, key: string) => {
    const house = await from.fork();
    try {
      const director = house.caller('director');
      const before = await looked(house);
      const told = await house.app.get(Troubles).play(director, key);
      const after = await looked(house);
      const listed = (await house.app.get(Troubles).list(director)).find((one) => one.key === key);
      expect(listed).toMatchObject({ wasPlayed: true, told });
      await expect(house.app.get(Troubles).play(director, key)).rejects.toMatchObject({
        refusal: { code: 'ALREADY_EXISTS', field: 'key', remedy: 'Set the demo yard up afresh.' },
      });
      return { before, after, told };
    } finally {
      await house.close();
    }
  };

  it.each([
    ...onAnyDay.map((trouble) => ({ ...trouble, from: () => base })),
    ...onASteamDay.map((trouble) => ({ ...trouble, from: () => steamDay })),
  ])(
    '$title',
    async ({ key, moves, reason, from }) => {
      const { before, after, told } = await play(from(), key);
      const answer = answers[key];
      if (answer) expect(told.join('\n')).toMatch(answer);
      if (reason === null) {
        // Stopped before it happened: what is said at the top is not said because of it.
        expect(told.length).toBeGreaterThan(0);
        // Where all places were filled, somebody gave theirs back to see what the gate says.
        if (after.lastMove !== before.lastMove)
          expect(after.lastMove).toMatch(/^Hardly moved, though a place was given back\./);
      } else {
        expect(after.lastMove).toContain(reason);
        expect(after.trend.marks.at(-1)?.reasons).toContain(reason);
      }
      if (moves === 'later') {
        expect(after.gateOdds).toBeLessThan(before.gateOdds);
        expect(daysBetween(before.evenOn ?? '', after.evenOn ?? '')).toBeGreaterThan(0);
        expect(after.lastMove).toMatch(/(instead of|a little worse).* later, since /);
      } else if (moves === 'later or not at all') {
        expect(after.lastMove).not.toMatch(/a little better|earlier/);
        // Else it has room beside the sawing, or another order of the work makes up for it.
        if (!/^Hardly moved, though|a better order/.test(after.lastMove ?? ''))
          expect(after.gateOdds).toBeLessThanOrEqual(before.gateOdds + luck);
      } else if (reason !== null) {
        expect(after.lastMove).toMatch(/^Hardly moved, though/);
      }
    },
    patience,
  );

  it('says to wait where a week is to be posted from a plan that is being reckoned anew', async () => {
    const house = await steamDay.fork();
    try {
      const troubles = house.app.get(Troubles);
      await troubles.play(house.caller('director'), 'floor-rotten');
      await expect(troubles.play(house.caller('director'), 'four-on-steam-day')).rejects.toMatchObject({
        refusal: { code: 'PLAN_OUTDATED', field: 'key', remedy: expect.stringContaining('Wait') as string },
      });
    } finally {
      await house.close();
    }
  });

  it('none of them at a real yard, none by a volunteer, and none before its day', async () => {
    const troubles = base.app.get(Troubles);
    await expect(troubles.play(base.caller('volunteer'), 'sawyer-away')).rejects.toThrow();
    await expect(troubles.play(base.caller('director'), 'no-such')).rejects.toThrow('no such');
    for (const { key } of onASteamDay)
      await expect(troubles.play(base.caller('director'), key)).rejects.toMatchObject({
        refusal: { code: 'TASK_NOT_READY', remedy: 'Let the yard’s days go by first.' },
      });
    await expect(troubles.letDaysGoBy(base.caller('director'), 'heat-day')).rejects.toThrow('No later day');
    await expect(base.app.get(PlayOn).until(base.caller('director'), '2027-03-05')).rejects.toMatchObject({
      refusal: { code: 'BAD_INPUT', field: 'to' },
    });
  });
});
