import { AuditEntry } from '@ribband/access';
import { usualAges } from '@ribband/crew';
import { scratchKinds } from '@ribband/platform';
import { openSmallYard, refusalOf, type SmallYard } from '../repair.fixture.js';
import { agesInForce } from './ages-in-force.js';
import { type PermitDraft, Permits } from './permits.service.js';
import { agesOf, safetyFactsOn } from './safety-facts.js';
import { SafetyRecords } from './safety-records.service.js';
import { SafetyTags } from './safety-tags.service.js';

describe.each(scratchKinds())('Permits, tags and weather on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const today = '2027-03-27';
  const permits = () => yard.get(Permits);
  const tags = () => yard.get(SafetyTags);
  const records = () => yard.get(SafetyRecords);
  const facts = async (on = today) =>
    (await safetyFactsOn(yard.database.read, yard.organisationId, [on]))(on);
  const draft = (over: Partial<PermitDraft> = {}): PermitDraft => ({
    kind: 'lead',
    taskId: null,
    by: 'Jonty Calder-Voss',
    untilOn: '2027-04-30',
    oxygenPercent: null,
    flammablePercent: null,
    note: null,
    ...over,
  });

  it('a closed space’s reading ends with the turnout, whatever day is given', async () => {
    const shipwright = await yard.as('shipwright');
    const permit = await permits().openPermit(
      shipwright,
      draft({ kind: 'enclosed-space', oxygenPercent: 20.9, flammablePercent: 0 }),
    );
    const hoursOpen = (permit.expiresAt - permit.opensAt) / 3_600_000;
    expect(hoursOpen).toBeGreaterThan(0);
    expect(hoursOpen).toBeLessThan(12);
    expect((await facts()).permits.map(({ by }) => by)).toEqual(['Jonty Calder-Voss']);
    await permits().closePermit(shipwright, permit.id);
    expect((await facts()).permits).toEqual([]);
  });

  it('bad air, a permit without an end and a nameless one are refused by field', async () => {
    const shipwright = await yard.as('shipwright');
    for (const [field, over] of [
      ['oxygenPercent', { kind: 'enclosed-space', oxygenPercent: 18, flammablePercent: 0 }],
      ['untilOn', { untilOn: null }],
      ['untilOn', { untilOn: '2027-12-31' }],
      ['by', { by: ' ' }],
      ['note', { note: 'x'.repeat(1001) }],
      ['taskId', { taskId: 'task_none' }],
    ] as const)
      expect(await refusalOf(permits().openPermit(shipwright, draft(over)))).toMatchObject({ field });
    expect((await facts()).permits).toEqual([]);
  });

  it('a tag is hung for an inspection that was made, and taken down for good', async () => {
    const coordinator = await yard.as('coordinator');
    const tag = { kind: 'staging' as const, name: 'Starboard', inspectedBy: 'Gideon Mallory-Ng' };
    const refused = await refusalOf(
      tags().hangTag(coordinator, { ...tag, inspectedOn: '2027-03-28', expiresOn: '2027-04-03' }),
    );
    expect(refused.field).toBe('inspectedOn');
    const hung = await tags().hangTag(coordinator, {
      ...tag,
      inspectedOn: today,
      expiresOn: '2027-04-03',
    });
    expect((await facts()).tags).toMatchObject([{ name: 'Starboard', isWithdrawn: false }]);
    await tags().withdrawTag(coordinator, hung.id);
    expect((await facts()).tags).toMatchObject([{ isWithdrawn: true }]);
    // Down already: nothing more is written of it.
    await tags().withdrawTag(await yard.as('shipwright'), hung.id);
    const { organisationId } = yard;
    expect(await yard.database.read.countBy(AuditEntry, { organisationId, operation: 'withdrawTag' })).toBe(
      1,
    );
  });

  it('a day has one weather, the last that was written, and a stop carries its writer’s name', async () => {
    const coordinator = await yard.as('coordinator');
    const weather = {
      heldOn: today,
      highFahrenheit: 91,
      lowFahrenheit: null,
      windMilesAnHour: null,
      airQualityIndex: null,
      thunder: false,
      holdReason: null,
      holdHazards: [],
    };
    await records().writeWeather(coordinator, weather);
    await records().writeWeather(coordinator, { ...weather, holdReason: 'Lightning all around.' });
    expect((await facts()).weather).toMatchObject({
      highFahrenheit: 91,
      hold: { by: 'The coordinator', reason: 'Lightning all around.' },
    });
    expect((await facts('2027-03-28')).weather).toBeNull();
    expect(
      await refusalOf(records().writeWeather(coordinator, { ...weather, highFahrenheit: 300 })),
    ).toMatchObject({
      field: 'input.highFahrenheit',
    });
    expect(
      (await refusalOf(records().writeWeather(coordinator, { ...weather, lowFahrenheit: 92 }))).field,
    ).toBe('input.lowFahrenheit');
    const machines = { ...weather, holdHazards: ['machine' as const] };
    expect(await refusalOf(records().writeWeather(coordinator, machines))).toMatchObject({
      field: 'input.holdReason',
    });
  });

  it('the organisation’s own ages want the director and a written reason, and a new plan', async () => {
    const director = await yard.as('director');
    const own = { ...usualAges, teardownFrom: 16 };
    expect((await refusalOf(records().setAges(director, own, 'Because.'))).field).toBe('reason');
    expect(
      (
        await refusalOf(
          records().setAges(await yard.as('shipwright'), own, 'Counsel and insurer have agreed.'),
        )
      ).code,
    ).toBe('NOT_PERMITTED');
    const before = await yard.revision();
    await records().setAges(director, own, 'Counsel and insurer have agreed in writing.');
    const ages = await agesOf(yard.database.read, yard.organisationId);
    expect(ages.teardownFrom).toBe(16);
    expect(await yard.revision()).toBe(before + 1);
    const shown = agesInForce({ ...ages, byHazard: { ...ages.byHazard, noise: 17 } });
    expect(shown).toMatchObject({ visitorsBelow: 14, inSightBelow: 16, teardownFrom: 16 });
    expect(shown.byHazard.find(({ hazard }) => hazard === 'noise')).toMatchObject({ from: 17, usual: 16 });
    expect(shown.byHazard.find(({ hazard }) => hazard === 'wet')).toMatchObject({ from: null, usual: null });
  });

  it('a volunteer writes none of it', async () => {
    const volunteer = await yard.as('volunteer', 'anselm-druitt');
    expect((await refusalOf(permits().openPermit(volunteer, draft()))).code).toBe('NOT_PERMITTED');
    expect((await refusalOf(records().setProtectors(volunteer, 25))).code).toBe('NOT_PERMITTED');
  });
});
