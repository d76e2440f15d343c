import { jest } from '@jest/globals';
import type { Role } from '@ribband/access';
import { scratchKinds, weekdayOf } from '@ribband/platform';
import { haulOutInForce, slotStandingsOf, type SlotWord, SlotWords } from '@ribband/repair';
import { Paces } from '../beliefs/paces.service.js';
import { OddsThreads } from '../compute/odds-threads.js';
import { TestHouse } from '../planning.fixture.js';
import { Plans } from '../plans/plans.service.js';
import { Records } from '../record/records.service.js';
import { WhatIfs } from '../what-if/what-ifs.service.js';
import { smallYard } from '../yard/small-yard.fixture.js';
import { YardBook } from '../yard/yard-book.service.js';
import { Outlooks } from './outlooks.service.js';

describe.each(scratchKinds())('the outlook of the small yard on %s', (kind) => {
  let house: TestHouse;
  let looks: jest.SpiedFunction<OddsThreads['forecast']>;
  // More than a quick look lives through, so that there are both.
  const fewer = process.env['FORECAST_FUTURES'];
  beforeAll(() => {
    process.env['FORECAST_FUTURES'] = '600';
  });
  afterAll(() => {
    process.env['FORECAST_FUTURES'] = fewer;
  });
  beforeEach(async () => {
    house = await TestHouse.open(kind);
    looks = jest.spyOn(house.app.get(OddsThreads), 'forecast');
    // A yard at which nobody has kept a plan or set a pace yet.
    const yard = { ...smallYard(), planBook: undefined };
    const read = await house.app.get(YardBook).import(house.caller('director'), yard, false);
    expect(Array.isArray(read)).toBe(false);
    await house.settled(60_000);
  }, 90_000);
  afterEach(() => house.close());

  const outlook = async () => {
    const found = await house.app.get(Outlooks).now(house.caller('director'));
    if (!found) throw new Error('there is a forecast');
    return found;
  };

  it('says the odds in one sentence, what decides, and what would help, after each plan', async () => {
    const found = await outlook();
    expect(found.sentence).toMatch(/ to make Sat 17 Apr; .* decides?\.$/);
    expect(looks.mock.calls.map(([, futures]) => futures)).toEqual([500, 600]);
    expect(found).toMatchObject({ futures: 600, isOfPlan: true });
    expect(found.decisiveWeeks.length).toBeGreaterThan(0);
    expect(found.decisiveWeeks.map(weekdayOf).filter((weekday) => weekday !== 1)).toEqual([]);
    expect((found.evenOn ?? '') <= (found.likelyOn ?? '')).toBe(true);
    expect(found.slots.map(({ odds }) => odds)).toEqual(
      [...found.slots.map(({ odds }) => odds)].sort((a, b) => a - b),
    );
    expect(found.nextHand.length).toBeGreaterThan(0);
    expect(found.trend.marks).toHaveLength(1);
    expect(found.paces[0]?.sentence).toMatch(
      /^4.9 nails a person-hour, from 1 turnout; the book said 3 to 8.$/,
    );
  });

  it('follows a pace that the shipwright sets by hand, with the reason', async () => {
    const [pace] = (await outlook()).paces;
    const paces = house.app.get(Paces);
    await expect(paces.pin(house.caller('coordinator'), pace.kind, 1, 'so')).rejects.toThrow();
    await expect(paces.pin(house.caller('shipwright'), pace.kind, 0, 'so')).rejects.toThrow('above 0');
    await expect(paces.pin(house.caller('shipwright'), pace.kind, 1e9, 'so')).rejects.toMatchObject({
      refusal: { message: 'Nobody does 1000000000 pieces in an hour.', field: 'pace' },
    });
    await paces.pin(house.caller('shipwright'), pace.kind, pace.pace / 50, 'they are rusted in');
    await house.settled(60_000);
    const after = await outlook();
    expect(after.paces[0]).toMatchObject({ pinnedWhy: 'they are rusted in' });
    expect(after.trend.marks[0]?.reasons).toContain('a pace was set by hand');
  }, 90_000);

  it('lists no slot that the yard was told about, and aims at the next once the gate is released', async () => {
    const slots = async () => {
      const haulOut = await haulOutInForce(house.database.read, house.caller('director').organisationId);
      return slotStandingsOf(house.database.read, haulOut?.id ?? '');
    };
    const [gate, fallback, later] = await slots();
    const words = house.app.get(SlotWords);
    const give = (slotId: string, word: SlotWord['word'], on = '2027-03-06', role: Role = 'director') =>
      words.give(house.caller(role), slotId, {
        word,
        on,
        by: 'Thandeka Orrill',
        yardSays: null,
        note: null,
      });
    const ofGate = async () => (await outlook()).decisions.filter(({ slot }) => slot?.id === gate.slot.id);
    expect((await ofGate())[0]?.words).toContain('Confirm or release the gate on Sat 17 Apr');
    await expect(give(gate.slot.id, 'confirmed', '2027-03-06', 'coordinator')).rejects.toThrow();
    await expect(give('liftslot_nobody', 'confirmed')).rejects.toMatchObject({
      refusal: { field: 'slotId' },
    });
    await expect(give(gate.slot.id, 'confirmed', '2027-03-07')).rejects.toMatchObject({
      refusal: { field: 'on', code: 'BAD_INPUT' },
    });
    await expect(give(gate.slot.id, 'confirmed', '1990-03-06')).rejects.toMatchObject({
      refusal: { field: 'on', remedy: expect.stringContaining('a year before') as string },
    });
    const both = await Promise.allSettled([give(gate.slot.id, 'confirmed'), give(gate.slot.id, 'confirmed')]);
    expect(both.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
    expect((await ofGate()).filter(({ words: says }) => says.startsWith('Confirm'))).toEqual([]);

    await give(gate.slot.id, 'released');
    await house.settled(60_000);
    const plan = await house.app.get(Plans).inForce(house.caller('director'));
    expect(plan?.gateSlot.id).toBe(fallback.slot.id);
    const found = await outlook();
    expect(found.slots.map(({ slot, role }) => [slot.id, role])).toEqual([
      [fallback.slot.id, 'gate'],
      [later.slot.id, 'later'],
    ]);
    expect(found.trend.marks[0]?.reasons).toContain('the lift slot of Sat 17 Apr was released');
    await give(fallback.slot.id, 'released');
    await expect(give(later.slot.id, 'released')).rejects.toMatchObject({
      refusal: { code: 'STILL_IN_USE' },
    });
    await give(gate.slot.id, 'taken back');
    await house.settled(60_000);
    expect((await house.app.get(Plans).inForce(house.caller('director')))?.gateSlot.id).toBe(gate.slot.id);
  }, 120_000);

  it('reckons what-ifs that are asked at once on copies, and leaves the plan in force alone', async () => {
    const plan = async () => (await house.app.get(Plans).inForce(house.caller('director')))?.id;
    const before = await plan();
    const whatIfs = house.app.get(WhatIfs);
    const ask = (name: string, weekday: number) =>
      whatIfs.ask(house.caller('director'), name, [
        { kind: 'turnouts', weekdays: [weekday], fromOn: '2027-03-07', untilOn: '2027-04-16' },
      ]);
    await Promise.all([ask('a further Friday', 5), ask('a further Tuesday', 2), ask('a further Monday', 1)]);
    await house.settled(60_000);
    const kept = await whatIfs.list(house.caller('director'));
    expect(kept.map(({ isWaiting, message }) => [isWaiting, message])).toEqual([
      [false, null],
      [false, null],
      [false, null],
    ]);
    for (const { now, then, sentence } of kept) {
      expect(sentence).not.toMatch(/by (.+) instead of \1\./);
      expect(then?.gateOdds ?? 0).toBeGreaterThanOrEqual((now?.gateOdds ?? 1) - 0.05);
      expect(sentence).toContain('to make the gate');
    }
    expect(await plan()).toBe(before);
    await whatIfs.forget(house.caller('director'), kept[0]?.id ?? '');
    expect(await whatIfs.list(house.caller('director'))).toHaveLength(2);
  }, 90_000);

  it('says of a what-if that changes nothing that it changes nothing, and refuses one that is not said whole', async () => {
    const whatIfs = house.app.get(WhatIfs);
    await whatIfs.ask(house.caller('director'), 'Saturdays on a Monday', [
      { kind: 'turnouts', weekdays: [6], fromOn: '2027-03-08', untilOn: '2027-03-08' },
    ]);
    await house.settled(60_000);
    expect((await whatIfs.list(house.caller('director')))[0]?.message).toContain('Nothing in the plan');
    await expect(
      whatIfs.ask(house.caller('director'), 'late', [{ kind: 'late', taskIds: ['x'] }]),
    ).rejects.toThrow('whole');
  }, 90_000);

  it('keeps a baseline, and measures the work against it by what is passed', async () => {
    const records = house.app.get(Records);
    expect((await records.read(house.caller('director'))).sentence).toContain('No baseline');
    await records.keep(house.caller('director'), 'as agreed');
    await expect(records.keep(house.caller('shipwright'), ' as agreed ')).rejects.toMatchObject({
      refusal: { code: 'ALREADY_EXISTS', field: 'name' },
    });
    const record = await records.read(house.caller('director'));
    expect(record.baselines).toMatchObject([{ name: 'as agreed', keptOn: '2027-03-06' }]);
    expect(record.measures.map(({ name }) => name).join()).toContain('CPLI');
    expect(record.hints.length).toBeGreaterThanOrEqual(14);
    await expect(records.keep(house.caller('coordinator'), 'mine')).rejects.toThrow();
  });
});
