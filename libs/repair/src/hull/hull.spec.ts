import { scratchKinds } from '@ribband/platform';
import { SCHOONER } from '../../../hull/src/model/halibut-schooner.fixture.js';
import { haulOutInForce } from '../haul-out/haul-out.records.js';
import { openSmallYard, refusalOf, type SmallYard } from '../repair.fixture.js';
import { Work } from '../methods/work.service.js';
import { HullRecords } from './hull-records.service.js';

describe.each(scratchKinds())('How the hull is built, on %s', (kind) => {
  let yard: SmallYard;
  let hulls: HullRecords;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
    hulls = yard.get(HullRecords);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const enter = async (role: 'shipwright' | 'volunteer', value: unknown, version: number | null) =>
    yard.get(Work).apply(await yard.as(role), { outline: { value, version }, reason: null });
  const hauledOut = async () => (await haulOutInForce(yard.database.read, yard.organisationId))!.id;

  it('came with the yard document, and names every element', async () => {
    const id = await hauledOut();
    expect(await hulls.outlineOf(yard.database.read, id)).toEqual(SCHOONER);
    const hull = await hulls.hullOf(yard.database.read, id);
    expect(hull?.frames).toHaveLength(88);
    expect(await hulls.hullOf(yard.database.read, id)).toBe(hull);
    expect(await hulls.hullOf(yard.database.read, 'haulout_elsewhere')).toBeNull();
  });

  it('is changed by the shipwright, and the next reader gets the hull as it is now', async () => {
    const id = await hauledOut();
    const before = await hulls.hullOf(yard.database.read, id);
    const longer = { ...SCHOONER, frames: { ...SCHOONER.frames, count: 50 } };
    const { hull } = await enter('shipwright', longer, 1);
    expect(hull).toMatchObject({ version: 2, changedBy: 'The shipwright' });
    expect((await hulls.hullOf(yard.database.read, id))?.frames).toHaveLength(100);
    expect(before?.frames).toHaveLength(88);
    expect(await refusalOf(enter('shipwright', longer, 1))).toMatchObject({ code: 'CHANGED_MEANWHILE' });
  });

  it('an outline that contradicts itself is refused at its field, and the old one stands', async () => {
    const shipwright = await yard.as('shipwright');
    const headless = { ...SCHOONER, frames: { ...SCHOONER.frames, head: 25 } };
    expect(await refusalOf(enter('shipwright', headless, 1))).toMatchObject({
      code: 'BAD_INPUT',
      field: 'outline.frames.head',
    });
    const spelled = { ...SCHOONER, strakes: { ...SCHOONER.strakes, count: 'nineteen' } };
    expect(await refusalOf(enter('shipwright', spelled, 1))).toMatchObject({
      code: 'BAD_INPUT',
      field: 'outline.strakes.count',
    });
    const [member] = SCHOONER.members;
    const { strakes, frames } = SCHOONER;
    for (const [field, senseless] of [
      ['strakes.bilge[0]', { ...SCHOONER, strakes: { ...strakes, bilge: [99] } }],
      ['strakes.width', { ...SCHOONER, strakes: { ...strakes, width: 1e-9 } }],
      ['frames.moulded.heel', { ...SCHOONER, frames: { ...frames, moulded: { heel: 1e-300, head: 150 } } }],
      ['members[1].name', { ...SCHOONER, members: [member, member] }],
    ] as const)
      expect(await refusalOf(enter('shipwright', senseless, 1))).toMatchObject({ field: `outline.${field}` });
    expect(await hulls.inForce(shipwright)).toMatchObject({ version: 1, outline: SCHOONER });
  });

  it('a change that was broken off leaves nothing of it behind', async () => {
    const id = await hauledOut();
    const caller = await yard.as('shipwright');
    const framed = (count: number) => ({ ...SCHOONER, frames: { ...SCHOONER.frames, count } });
    const change = { outline: { value: framed(50), version: 1 }, reason: null };
    const broken = yard.database.write(async (manager) => {
      await yard.get(Work).applyIn(manager, caller, change);
      expect((await hulls.hullOf(manager, id))?.frames).toHaveLength(100);
      throw new Error('the disk is full');
    });
    await expect(broken).rejects.toThrow('the disk is full');
    await enter('shipwright', framed(46), 1);
    expect((await hulls.hullOf(yard.database.read, id))?.frames).toHaveLength(92);
  });

  it('nobody else changes it', async () => {
    expect(await refusalOf(enter('volunteer', SCHOONER, 1))).toMatchObject({ code: 'NOT_PERMITTED' });
  });
});
