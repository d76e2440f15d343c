import { localToInstant, Message, scratchKinds, YardClock } from '@ribband/platform';
import { openSmallYard, type SmallYard } from '../crew.fixture.js';
import { CardReminders } from './card-reminders.js';
import { Cards } from './cards.service.js';

describe.each(scratchKinds())('A card that runs out, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const lookOn = async (day: string) => {
    await yard.database.write((manager) =>
      yard
        .get(YardClock)
        .set(manager, yard.organisationId, localToInstant(day, '09:00', 'America/Los_Angeles')),
    );
    await yard.get(CardReminders).look();
    const told = await yard.database.read.findBy(Message, { kind: 'card-expiring' });
    return told.map(({ subject }) => subject);
  };

  it('is told of thirty days and seven days before, once each, and not when it was renewed', async () => {
    const id = await yard.idOf('noor-tamblyn');
    const kindId = await yard.idOf('first-aid');
    const coordinator = await yard.as('coordinator');
    const shown = { volunteerId: id, kindId, issuer: 'Harbour first-aid school' };
    await yard.database.write((manager) =>
      manager.delete('CardEntity', { organisationId: yard.organisationId }),
    );
    await yard.get(Cards).add(coordinator, { ...shown, expiresOn: '2027-05-31' });
    expect(await lookOn('2027-04-30')).toEqual([]);
    expect(await lookOn('2027-05-01')).toHaveLength(1);
    expect(await lookOn('2027-05-02')).toEqual(['Your card "first aid" lapses on 2027-05-31']);
    expect(await lookOn('2027-05-24')).toHaveLength(2);
    await yard.get(Cards).add(coordinator, { ...shown, expiresOn: '2027-06-05' });
    await yard.get(Cards).add(coordinator, { ...shown, expiresOn: '2029-06-05' });
    expect(await lookOn('2027-05-31')).toHaveLength(2);
  });
});
