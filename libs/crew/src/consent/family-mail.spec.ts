import { localToInstant, Message, Postman, scratchKinds } from '@ribband/platform';
import { PostOffice } from '../../../platform/src/outbox/post-office.fixture.js';
import { openSmallYard, type SmallYard } from '../crew.fixture.js';
import { Consents } from './consents.service.js';
import { FamilyNews } from './family-news.js';

describe.each(scratchKinds())('The letter to the family of somebody under 18, on %s', (kind) => {
  const office = new PostOffice();
  let yard: SmallYard;
  let noor: string;
  beforeAll(async () => {
    yard = await openSmallYard(kind, {
      SMTP_URL: await office.open(),
      MAIL_FROM: 'Yard <yard@harbor.example>',
      PUBLIC_URL: 'https://harbor.example',
    });
  });
  beforeEach(async () => {
    await yard.renew();
    office.letters.length = 0;
    noor = await yard.idOf('noor-tamblyn');
  });
  afterAll(async () => {
    await yard.close();
    await office.close();
  });

  const consent = async (guardianName: string, guardianEmail: string | null, kinds: 'light'[] = ['light']) =>
    yard.get(Consents).give(await yard.as('coordinator'), noor, {
      ...{ guardianName, guardianEmail, kinds, how: 'on paper', givenOn: '2027-03-01' },
    });
  const tell = (volunteerId: string, what: 'came' | 'left', time: string) =>
    yard.database.write((manager) =>
      yard.get(FamilyNews).tell(manager, yard.organisationId, {
        ...{ volunteerId, what, key: 'turnout_1' },
        at: localToInstant('2027-03-06', time, 'America/Los_Angeles'),
      }),
    );
  /** All that is due has gone, by this process or by the postman of the yard, whatever the hour at which the test runs. */
  const sent = async () => {
    for (;;) {
      await yard.get(Postman).sendDue();
      const waiting = await yard.database.read.countBy(Message, {
        organisationId: yard.organisationId,
        mail: 'waiting',
      });
      if (waiting === 0) return office.letters;
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
  };

  it('goes to the parent by name and time, once for the coming and once for the leaving, with no link to the yard’s pages', async () => {
    await consent('Farid Tamblyn', 'farid@example.org');
    await consent('Farid Tamblyn', 'farid@example.org');
    await tell(noor, 'came', '09:05');
    await tell(noor, 'came', '09:05');
    const [came, ...more] = [...(await sent())];
    expect(more).toEqual([]);
    expect(came.to).toBe('farid@example.org');
    expect(came.text).toContain('Subject: Noor Tamblyn is at the yard');
    expect(came.text).toContain('Noor Tamblyn was ticked as come at 09:05.');
    expect(came.text).toContain('Auto-Submitted: auto-generated');
    expect(came.text).not.toContain('https://harbor.example');
    expect(came.text).toContain('If you would rather not be written to, tell the yard.');
    await tell(noor, 'left', '13:40');
    const [, left, ...none] = [...(await sent())];
    expect(none).toEqual([]);
    expect(left.to).toBe('farid@example.org');
    expect(left.text).toContain('Subject: Noor Tamblyn has left the yard');
    expect(left.text).toContain('Noor Tamblyn was ticked as gone at 13:40.');
  });

  it('goes to each parent with an address, to none whose yes is withdrawn, and to nobody’s for an adult', async () => {
    await consent('Farid Tamblyn', 'farid@example.org');
    await consent('Lale Tamblyn', 'lale@example.org');
    await consent('Grandmother', null);
    await tell(noor, 'came', '09:05');
    await tell(await yard.idOf('ysolde-pankhart'), 'came', '09:05');
    expect((await sent()).map(({ to }) => to).sort()).toEqual(['farid@example.org', 'lale@example.org']);
    const coordinator = await yard.as('coordinator');
    for (const one of await yard.get(Consents).of(coordinator, noor))
      if (one.guardianEmail === 'lale@example.org') await yard.get(Consents).withdraw(coordinator, one.id);
    await tell(noor, 'left', '13:40');
    expect((await sent()).slice(2).map(({ to }) => to)).toEqual(['farid@example.org']);
  });

  it('is tried again where the parent’s mail server is busy, and goes once', async () => {
    await consent('Farid Tamblyn', 'farid@example.org');
    office.onRecipient = () => Object.assign(new Error('busy'), { responseCode: 451 });
    await tell(noor, 'came', '09:05');
    await yard.get(Postman).sendDue();
    expect(office.letters).toEqual([]);
    office.onRecipient = () => null;
    const own = { organisationId: yard.organisationId, mail: 'waiting' } as const;
    expect(await yard.database.read.countBy(Message, own)).toBe(1);
    await yard.database.write((manager) => manager.update(Message, own, { dueAt: 0 }));
    expect((await sent()).map(({ to }) => to)).toEqual(['farid@example.org']);
  });

  it('says that another time was written before only to who had that letter', async () => {
    await consent('Farid Tamblyn', 'farid@example.org');
    await tell(noor, 'came', '09:05');
    await tell(noor, 'left', '13:40');
    await consent('Lale Tamblyn', 'lale@example.org');
    // Written down once more, he is still who had the letter.
    await consent('Farid Tamblyn', 'farid@example.org');
    const at = localToInstant('2027-03-06', '13:20', 'America/Los_Angeles');
    await yard.database.write((manager) =>
      yard.get(FamilyNews).leftAfterAll(manager, yard.organisationId, {
        ...{ volunteerId: noor, at, keys: ['turnout_1'], standing: null, isBack: false },
      }),
    );
    const rows = await yard.database.read.findBy(Message, { organisationId: yard.organisationId });
    const consents = await yard.get(Consents).of(await yard.as('coordinator'), noor);
    const right = rows.flatMap(({ recipientId, words }) => {
      const to = consents.find(({ id }) => id === recipientId)?.guardianEmail;
      return to && words.includes('gone at 13:20') ? [[to, words]] : [];
    });
    const gone = 'Noor Tamblyn was ticked as gone at 13:20.';
    expect(right.sort()).toEqual([
      ['farid@example.org', `${gone} We wrote another time before; this is the right one.`],
      ['lale@example.org', gone],
    ]);
  });
});
