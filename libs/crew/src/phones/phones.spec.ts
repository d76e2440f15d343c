import { AuditEntry } from '@ribband/access';
import { scratchKinds } from '@ribband/platform';
import { openSmallYard, refusalOf, type SmallYard } from '../crew.fixture.js';
import { Phones } from './phones.service.js';

describe.each(scratchKinds())('Where people are rung up, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  it('is between them and the coordinator: nobody else reads it, and the trail does not have it', async () => {
    const phones = yard.get(Phones);
    const id = await yard.idOf('noor-tamblyn');
    const noor = await yard.as('volunteer', 'noor-tamblyn');
    await phones.set(noor, id, ' +1 360 555 0142 ');
    const read = async (role: 'director' | 'shipwright' | 'coordinator' | 'volunteer', ref?: string) =>
      (await phones.seenBy(await yard.as(role, ref), [id])).get(id);
    expect(await read('coordinator')).toBe('+1 360 555 0142');
    expect(await read('volunteer', 'noor-tamblyn')).toBe('+1 360 555 0142');
    expect(await read('director')).toBeUndefined();
    expect(await read('shipwright')).toBeUndefined();
    expect(await read('volunteer', 'anselm-druitt')).toBeUndefined();
    const where = { organisationId: yard.organisationId };
    expect(JSON.stringify(await yard.database.read.findBy(AuditEntry, where))).not.toContain('0142');

    await phones.set(await yard.as('coordinator'), id, '');
    expect(await read('coordinator')).toBeUndefined();
  });

  it('is a number, and nobody else’s to write down', async () => {
    const phones = yard.get(Phones);
    const id = await yard.idOf('noor-tamblyn');
    const coordinator = await yard.as('coordinator');
    for (const number of ['ask her sister', '12', '+1 360 555 0142; DROP', '+-()-+-()'])
      expect(await refusalOf(phones.set(coordinator, id, number))).toMatchObject({
        code: 'BAD_INPUT',
        field: 'phone',
      });
    const other = await yard.as('volunteer', 'anselm-druitt');
    expect((await refusalOf(phones.set(other, id, '555 0142'))).code).toBe('NOT_PERMITTED');
    expect((await refusalOf(phones.set(await yard.as('director'), id, '555 0142'))).code).toBe(
      'NOT_PERMITTED',
    );
    expect((await refusalOf(phones.set(coordinator, 'volunteer_none', '555 0142'))).code).toBe('NOT_FOUND');
  });
});
