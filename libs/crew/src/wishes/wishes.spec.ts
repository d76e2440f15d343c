import { localToInstant, Message, scratchKinds } from '@ribband/platform';
import { Consents } from '../consent/consents.service.js';
import { FamilyNews } from '../consent/family-news.js';
import { openSmallYard, refusalOf, type SmallYard } from '../crew.fixture.js';
import { readCrew } from '../document/read-crew.js';
import { eraseCrew, writeCrew } from '../document/write-crew.js';
import { mayDoOnTheDay } from '../gates/index.js';
import { Skill } from '../skills/skill.entity.js';
import { crewHands } from '../volunteers/crew-hands.js';
import { WishBook } from './wishes.service.js';

describe.each(scratchKinds())('What people ask for themselves, and parents say yes to, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const yes = {
    guardianName: 'Farid Tamblyn',
    guardianEmail: 'farid@example.org',
    kinds: ['light' as const, 'eye' as const],
    how: 'on paper',
    givenOn: '2027-03-01',
  };
  const noor = async () => {
    const [hand] = await crewHands(yard.database.read, yard.organisationId, [
      await yard.idOf('noor-tamblyn'),
    ]);
    return hand;
  };
  const stopsFor = async (hazards: string[], on = '2027-03-06') => {
    const job = {
      id: 'task',
      title: '',
      hazards,
      cards: [],
      leastAge: null,
      seatSkills: [],
      dismantles: false,
      crewMin: 1,
      noiseDba: null,
      lift: null,
    };
    const seat = { skill: null, level: 0, cards: [] };
    const { findings } = mayDoOnTheDay({ hand: await noor(), job, seat, on });
    return findings.filter((one) => one.weight === 'stop').map((one) => one.rule);
  };

  it('each says it for themselves, the coordinator for anybody, and nobody else reads it', async () => {
    const book = yard.get(WishBook);
    const id = await yard.idOf('anselm-druitt');
    const anselm = await yard.as('volunteer', 'anselm-druitt');
    await book.set(anselm, id, 1, { turnoutsAMonth: 2, ratherNots: ['ladders', 'ladders'] });
    const said = { turnoutsAMonth: 2, ratherNots: ['ladders'], wouldLearn: [] };
    expect(await book.read(anselm, id)).toEqual(said);
    expect(await book.read(await yard.as('coordinator'), id)).toEqual(said);
    for (const role of ['director', 'shipwright'] as const)
      expect(await book.read(await yard.as(role), id)).toBeNull();
    const ysolde = await yard.as('volunteer', 'ysolde-pankhart');
    expect(await book.read(ysolde, id)).toBeNull();
    const wishes = { turnoutsAMonth: null, ratherNots: [] };
    expect((await refusalOf(book.set(ysolde, id, 2, wishes))).code).toBe('NOT_PERMITTED');
    expect((await refusalOf(book.set(anselm, id, 1, wishes))).code).toBe('CHANGED_MEANWHILE');
    const none = { turnoutsAMonth: 0, ratherNots: [] };
    expect(await refusalOf(book.set(anselm, id, 2, none))).toMatchObject({ field: 'turnoutsAMonth' });
    expect(await yard.revision()).toBe(1);
  });

  it('what somebody would rather not do never leaves with the document, and is there after it is read in again', async () => {
    const id = await yard.idOf('anselm-druitt');
    const [skill] = await yard.database.read.findBy(Skill, { organisationId: yard.organisationId });
    const wishes = { turnoutsAMonth: 2, ratherNots: ['kneeling' as const], wouldLearn: [skill.id] };
    await yard.get(WishBook).set(await yard.as('coordinator'), id, 1, wishes);
    const document = await readCrew(yard.database.read, yard.organisationId);
    expect(JSON.stringify(document)).not.toContain('kneeling');
    expect(document.volunteers[0]).toMatchObject({ ref: 'anselm-druitt', turnoutsAMonth: 2 });
    await yard.database.write(async (manager) => {
      const former = await eraseCrew(manager, yard.organisationId);
      await writeCrew(manager, yard.organisationId, document, former);
    });
    const again = await yard.idOf('anselm-druitt');
    expect(again).not.toBe(id);
    const read = await yard.get(WishBook).read(await yard.as('coordinator'), again);
    const { organisationId } = yard;
    const [same] = await yard.database.read.findBy(Skill, { organisationId, ref: skill.ref });
    expect(read).toEqual({ ...wishes, wouldLearn: [same.id] });
  });

  it('what somebody would like to learn goes out to the coordinator alone, and stays where nothing is said of it', async () => {
    const id = await yard.idOf('anselm-druitt');
    const book = yard.get(WishBook);
    const anselm = await yard.as('volunteer', 'anselm-druitt');
    const wishes = { turnoutsAMonth: null, ratherNots: [] };
    const [skill] = await yard.database.read.findBy(Skill, { organisationId: yard.organisationId });
    await book.set(anselm, id, 1, { ...wishes, wouldLearn: [skill.id, skill.id] });
    await book.set(anselm, id, 2, { ...wishes, turnoutsAMonth: 3 });
    expect(await book.read(anselm, id)).toMatchObject({ turnoutsAMonth: 3, wouldLearn: [skill.id] });
    expect(await book.read(await yard.as('director'), id)).toBeNull();
    const [hand] = await crewHands(yard.database.read, yard.organisationId, [id]);
    expect(hand.wouldLearn).toEqual([skill.id]);
    const read = (isCoordinator: boolean) => readCrew(yard.database.read, yard.organisationId, isCoordinator);
    expect((await read(true)).volunteers[0]).toMatchObject({ wouldLearn: [skill.ref] });
    expect(JSON.stringify(await read(false))).not.toContain('wouldLearn');
    const unknown = book.set(anselm, id, 3, { ...wishes, wouldLearn: ['skill_none'] });
    expect(await refusalOf(unknown)).toMatchObject({ code: 'NOT_FOUND', field: 'wouldLearn' });
    await book.set(anselm, id, 3, { ...wishes, wouldLearn: [] });
    expect(await book.read(anselm, id)).toMatchObject({ wouldLearn: [] });
  });

  it('under 18 nobody has a place before a parent has said yes to that kind of work', async () => {
    expect(await stopsFor([])).toEqual(['no-consent']);
    const coordinator = await yard.as('coordinator');
    const id = await yard.idOf('noor-tamblyn');
    await yard.get(Consents).give(coordinator, id, yes);
    expect(await stopsFor([])).toEqual([]);
    expect(await stopsFor(['eye'])).toEqual([]);
    expect(await stopsFor(['eye', 'dust'])).toEqual(['no-consent']);
    expect(await stopsFor([], '2027-02-28')).toEqual(['no-consent']);
    // At 18 nobody is asked any more.
    expect(await stopsFor(['dust'], '2028-10-01')).toEqual([]);
    const [consent] = await yard.get(Consents).of(coordinator, id);
    expect(consent).toMatchObject({ writtenBy: coordinator.name, withdrawnOn: null });
    await yard.get(Consents).withdraw(coordinator, consent.id);
    expect(await stopsFor([])).toEqual(['no-consent']);
    expect(await yard.get(Consents).of(coordinator, id)).toMatchObject([{ withdrawnOn: '2027-03-06' }]);
  });

  it('a yes to nothing, by nobody or from tomorrow is refused with the field', async () => {
    const coordinator = await yard.as('coordinator');
    const id = await yard.idOf('noor-tamblyn');
    const wrongs: [string, Partial<typeof yes>][] = [
      ['kinds', { kinds: [] }],
      ['guardianName', { guardianName: ' ' }],
      ['guardianEmail', { guardianEmail: 'at home' }],
      ['givenOn', { givenOn: '2027-03-07' }],
      ['how', { how: '' }],
    ];
    for (const [field, wrong] of wrongs)
      expect(await refusalOf(yard.get(Consents).give(coordinator, id, { ...yes, ...wrong }))).toMatchObject({
        code: 'BAD_INPUT',
        field,
      });
    const grown = await yard.idOf('ysolde-pankhart');
    expect((await refusalOf(yard.get(Consents).give(coordinator, grown, yes))).field).toBe('volunteerId');
    const noorHerself = await yard.as('volunteer', 'noor-tamblyn');
    expect((await refusalOf(yard.get(Consents).give(noorHerself, id, yes))).code).toBe('NOT_PERMITTED');
  });

  it('parents learn once that she came and once that she left; of adults nobody is told', async () => {
    const id = await yard.idOf('noor-tamblyn');
    const coordinator = await yard.as('coordinator');
    await yard.get(Consents).give(coordinator, id, yes);
    await yard.get(Consents).give(coordinator, id, { ...yes, kinds: ['dust'] });
    const at = localToInstant('2027-03-06', '09:05', 'America/Los_Angeles');
    const tell = (volunteerId: string, what: 'came' | 'left') =>
      yard.database.write((manager) =>
        yard.get(FamilyNews).tell(manager, yard.organisationId, {
          volunteerId,
          key: 'turnout_1',
          what,
          at,
        }),
      );
    await tell(id, 'came');
    await tell(id, 'came');
    await tell(id, 'left');
    await tell(await yard.idOf('anselm-druitt'), 'came');
    const told = await yard.database.read.findBy(Message, { organisationId: yard.organisationId });
    const toParents = told.filter((one) => one.recipientId.startsWith('guardian_'));
    expect(toParents.map((one) => one.subject).sort()).toEqual([
      'Noor Tamblyn has left the yard',
      'Noor Tamblyn is at the yard',
    ]);
    expect(told.every((one) => one.evenAtNight)).toBe(true);
  });
});
