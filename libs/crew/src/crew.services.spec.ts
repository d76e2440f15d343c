import { Account, AuditEntry, Membership } from '@ribband/access';
import { ComputeJob, newId, scratchKinds } from '@ribband/platform';
import { Availability } from './availability/availability.service.js';
import { CardKind } from './cards/card-kind.entity.js';
import { Cards } from './cards/cards.service.js';
import { openSmallYard, refusalOf, smallCrew, type SmallYard } from './crew.fixture.js';
import { readCrew } from './document/read-crew.js';
import { eraseCrew, writeCrew } from './document/write-crew.js';
import { formerCardPurpose } from './purposes/purposes.js';
import { Purposes } from './purposes/purposes.service.js';
import { Skills } from './skills/skills.service.js';
import { crewHands } from './volunteers/crew-hands.js';
import { Volunteer } from './volunteers/volunteer.entity.js';
import { Volunteers } from './volunteers/volunteers.service.js';

const weekly = (days: string) => ({
  rule: `FREQ=WEEKLY;BYDAY=${days}`,
  startsOn: '2027-03-06',
  untilOn: null,
  from: null,
  to: null,
});

describe.each(scratchKinds())('The crew on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const handOf = async (ref: string) => {
    const id = await yard.idOf(ref);
    const hand = (await crewHands(yard.database.read, yard.organisationId, [id])).at(0);
    if (!hand) throw new Error(`${ref} is not in the crew`);
    return hand;
  };

  it('a volunteer says anew when they can come, and a new plan is asked for', async () => {
    const anselm = await yard.as('volunteer', 'anselm-druitt');
    const id = await yard.idOf('anselm-druitt');
    const left = await yard.get(Availability).set(anselm, id, 1, [weekly('SU')], []);
    expect(left.version).toBe(2);
    const hand = await handOf('anselm-druitt');
    expect(hand.rules.map((rule) => rule.rule)).toEqual(['FREQ=WEEKLY;BYDAY=SU']);
    expect(hand.exceptions).toEqual([]);
    expect(await yard.revision()).toBe(1);
    expect(
      await yard.database.read.countBy(ComputeJob, {
        organisationId: yard.organisationId,
        name: 'plan',
        state: 'waiting',
      }),
    ).toBe(1);
  });

  it('a rule that never occurs is named by its place, and nothing of the set is kept', async () => {
    const coordinator = await yard.as('coordinator');
    const id = await yard.idOf('anselm-druitt');
    const never = { ...weekly('SA'), rule: 'FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30' };
    const refused = await refusalOf(
      yard.get(Availability).set(coordinator, id, 1, [weekly('SU'), never], []),
    );
    expect(refused).toMatchObject({ code: 'RULE_NEVER_OCCURS', field: 'rules[1].rule' });
    expect(refused.remedy).toMatch(/FREQ=WEEKLY/);
    expect((await handOf('anselm-druitt')).rules[0].rule).toBe('FREQ=WEEKLY;BYDAY=WE,SA');
    expect(await yard.revision()).toBe(0);
  });

  it('an edit of what somebody else changed meanwhile is refused with both versions', async () => {
    const coordinator = await yard.as('coordinator');
    const id = await yard.idOf('anselm-druitt');
    await yard.get(Availability).set(coordinator, id, 1, [weekly('SU')], []);
    const refused = await refusalOf(yard.get(Availability).set(coordinator, id, 1, [weekly('SA')], []));
    expect(refused.code).toBe('CHANGED_MEANWHILE');
    expect(refused.facts.map((fact) => fact.value)).toEqual(['1', '2']);
  });

  it('of two who save the same version at once exactly one is kept', async () => {
    const coordinator = await yard.as('coordinator');
    const id = await yard.idOf('anselm-druitt');
    const saved = await Promise.allSettled(
      ['SU', 'SA', 'WE', 'TH'].map((day) =>
        yard.get(Availability).set(coordinator, id, 1, [weekly(day)], []),
      ),
    );
    expect(saved.filter((one) => one.status === 'fulfilled')).toHaveLength(1);
    expect((await handOf('anselm-druitt')).rules).toHaveLength(1);
  });

  it('a volunteer sees and changes their own record and nobody else’s', async () => {
    const ysolde = await yard.as('volunteer', 'ysolde-pankhart');
    const people = yard.get(Volunteers);
    const anselmId = await yard.idOf('anselm-druitt');
    expect((await people.one(ysolde, ysolde.volunteerId ?? ''))?.name).toBe('Ysolde Pankhart');
    expect(await people.one(ysolde, anselmId)).toBeNull();
    await expect(async () => people.list(ysolde, { first: 10 })).rejects.toMatchObject({
      refusal: { code: 'NOT_PERMITTED' },
    });
    const refused = await refusalOf(yard.get(Availability).set(ysolde, anselmId, 1, [], []));
    expect(refused.code).toBe('NOT_PERMITTED');
  });

  it('nobody of another yard sees anybody of this one', async () => {
    const stranger = { ...(await yard.as('director')), organisationId: 'organisation_elsewhere' };
    expect(await yard.get(Volunteers).one(stranger, await yard.idOf('anselm-druitt'))).toBeNull();
    expect(
      (await refusalOf(yard.get(Volunteers).edit(stranger, await yard.idOf('anselm-druitt'), 1, {}))).code,
    ).toBe('NOT_FOUND');
  });

  it('the coordinator writes down somebody without e-mail or account, and corrects the name later', async () => {
    const coordinator = await yard.as('coordinator');
    const people = yard.get(Volunteers);
    const petra = await people.add(coordinator, {
      name: ' Petra Wynnock ',
      kind: 'volunteer',
      bornOn: '1955-01-20',
      email: null,
      minutesAWeek: null,
      minutesATurnout: 180,
    });
    expect(petra).toMatchObject({ name: 'Petra Wynnock', ref: 'petra-wynnock', version: 1 });
    const changed = await people.edit(coordinator, petra.id, 1, { name: 'Petra Wynnock-Hale' });
    expect(changed).toMatchObject({ version: 2, minutesATurnout: 180 });
    expect((await people.list(coordinator, { first: 10 })).nodes.map((one) => one.name)).toEqual([
      'Anselm Druitt',
      'Noor Tamblyn',
      'Petra Wynnock-Hale',
      'Ysolde Pankhart',
    ]);
  });

  it('nobody is added, or renamed, to a name that somebody in the crew has', async () => {
    const coordinator = await yard.as('coordinator');
    const people = yard.get(Volunteers);
    const draft = {
      kind: 'volunteer' as const,
      bornOn: null,
      email: null,
      minutesAWeek: null,
      minutesATurnout: null,
    };
    const refused = await refusalOf(people.add(coordinator, { ...draft, name: ' anselm  Druitt' }));
    expect(refused).toMatchObject({ code: 'ALREADY_EXISTS', field: 'name' });
    const other = await people.add(coordinator, { ...draft, name: 'Anselm B. Druitt' });
    expect((await refusalOf(people.edit(coordinator, other.id, 1, { name: 'Anselm Druitt' }))).field).toBe(
      'name',
    );
    expect(await people.edit(coordinator, other.id, 1, { name: 'Anselm B. Druitt' })).toMatchObject({
      version: 2,
    });
  });

  it('a chance above one, an address without a host and a birthday to come are refused by field', async () => {
    const coordinator = await yard.as('coordinator');
    const id = await yard.idOf('anselm-druitt');
    for (const [field, changes] of [
      ['email', { email: 'anselm' }],
      ['bornOn', { bornOn: '2027-03-07' }],
      ['bornOn', { bornOn: '1800-01-01' }],
      ['name', { name: '  ' }],
      ['minutesAWeek', { minutesAWeek: 0 }],
      ['kind', { kind: null as never }],
    ] as const) {
      const refused = await refusalOf(yard.get(Volunteers).edit(coordinator, id, 1, changes));
      expect(refused).toMatchObject({ code: 'BAD_INPUT', field });
    }
    expect(await yard.database.read.findOneByOrFail(Volunteer, { id })).toMatchObject({ version: 1 });
  });

  it('the shipwright signs somebody off, by name, and again at a higher level', async () => {
    const shipwright = await yard.as('shipwright');
    const [ysolde, sawyer] = [await yard.idOf('ysolde-pankhart'), await yard.idOf('sawyer')];
    await yard.get(Skills).setLevel(shipwright, ysolde, sawyer, 2);
    await yard.get(Skills).setLevel(shipwright, ysolde, sawyer, 3);
    const written = (await readCrew(yard.database.read, yard.organisationId)).volunteers.at(1);
    expect(written?.skills).toEqual([{ skill: 'sawyer', level: 3, signedOffBy: 'The shipwright' }]);
  });

  it('a skill that the yard does not know, a level that there is none of, a volunteer’s own say are refused', async () => {
    const shipwright = await yard.as('shipwright');
    const [ysolde, sawyer] = [await yard.idOf('ysolde-pankhart'), await yard.idOf('sawyer')];
    const skills = yard.get(Skills);
    expect(await refusalOf(skills.setLevel(shipwright, ysolde, 'skill_none', 2))).toMatchObject({
      code: 'UNKNOWN_SKILL',
      field: 'skillId',
    });
    expect(await refusalOf(skills.setLevel(shipwright, ysolde, sawyer, 5))).toMatchObject({ field: 'level' });
    const self = await yard.as('volunteer', 'ysolde-pankhart');
    expect((await refusalOf(skills.setLevel(self, ysolde, sawyer, 4))).code).toBe('NOT_PERMITTED');
  });

  it('a card is noted and taken off again', async () => {
    const coordinator = await yard.as('coordinator');
    const [noor, kindId] = [await yard.idOf('noor-tamblyn'), await yard.idOf('first-aid')];
    await yard
      .get(Cards)
      .add(coordinator, { volunteerId: noor, kindId, issuer: 'The yard', expiresOn: '2028-01-01' });
    const [card] = (await handOf('noor-tamblyn')).cards;
    expect(card).toMatchObject({ kindId, issuer: 'The yard', expiresOn: '2028-01-01' });
    const same = { volunteerId: noor, kindId, issuer: ' The yard ', expiresOn: '2028-01-01' };
    expect(await refusalOf(yard.get(Cards).add(coordinator, same))).toMatchObject({ code: 'ALREADY_EXISTS' });
    const forEver = { ...same, expiresOn: '9999-12-31' };
    expect((await refusalOf(yard.get(Cards).add(coordinator, forEver))).field).toBe('expiresOn');
    await yard.get(Cards).remove(coordinator, card.id);
    expect((await handOf('noor-tamblyn')).cards).toEqual([]);
    expect(await yard.revision()).toBe(2);
  });

  it('what was read in from a document comes out equal', async () => {
    expect(await readCrew(yard.database.read, yard.organisationId)).toEqual(smallCrew);
  });

  it('a new import keeps accounts with their people, and lets go of those who are not in it', async () => {
    const { organisationId } = yard;
    const formerly = { anselm: await yard.idOf('anselm-druitt'), noor: await yard.idOf('noor-tamblyn') };
    await yard.database.write(async (manager) => {
      for (const [who, volunteerId] of Object.entries(formerly)) {
        const accountId = newId('account');
        await manager.insert(Account, {
          id: accountId,
          email: `${who}.${kind}@example.org`,
          name: who,
          passwordHash: '-',
          hasOneTimePassword: false,
          openedAt: 0,
        });
        await manager.insert(Membership, {
          id: newId('membership'),
          organisationId,
          accountId,
          role: 'volunteer',
          volunteerId,
        });
      }
    });
    await yard.database.write(async (manager) => {
      const former = await eraseCrew(manager, organisationId);
      const withoutNoor = { ...smallCrew, volunteers: smallCrew.volunteers.slice(0, 2) };
      await writeCrew(manager, organisationId, withoutNoor, former);
    });
    const linked = await yard.database.read.find(Membership, {
      where: { organisationId },
      order: { id: 'ASC' },
    });
    expect(linked.map((member) => member.volunteerId)).toEqual([await yard.idOf('anselm-druitt'), null]);
  });

  it('takes a card for what the director says, not for its name, and a silent document leaves it so', async () => {
    const director = await yard.as('director');
    const kindId = await yard.idOf('first-aid');
    const purposes = yard.get(Purposes);
    const { organisationId, database } = yard;
    const why = 'the harbour asks for another card now';
    for (const role of ['coordinator', 'shipwright', 'volunteer'] as const) {
      const caller = await yard.as(role);
      expect((await refusalOf(purposes.ofCard(caller, kindId, null, why))).code).toBe('NOT_PERMITTED');
      const skillId = await yard.idOf('sawyer');
      expect((await refusalOf(purposes.ofSkill(caller, skillId, null, why))).code).toBe('NOT_PERMITTED');
    }
    expect((await refusalOf(purposes.ofCard(director, 'nothing', null, why))).field).toBe('kindId');
    expect((await refusalOf(purposes.ofCard(director, kindId, null, '  so  '))).field).toBe('reason');
    // Without a kind for it the first-aid gate would ask for nobody.
    for (const purpose of [null, 'waiver'] as const)
      expect(await refusalOf(purposes.ofCard(director, kindId, purpose, why))).toMatchObject({
        ...{ code: 'STILL_IN_USE', field: 'purpose' },
      });
    expect(await purposes.ofCard(director, kindId, 'first-aid', why)).toMatchObject({ purpose: 'first-aid' });
    const other = { id: newId('cardkind'), organisationId, ref: 'harbour', name: 'Harbour course' };
    await database.write((manager) => manager.insert(CardKind, { ...other, purpose: 'first-aid' }));
    const before = await yard.revision();
    expect(await purposes.ofCard(director, kindId, 'waiver', why)).toMatchObject({ purpose: 'waiver' });
    expect(await yard.revision()).toBe(before + 1);
    const notes = await database.read.findBy(AuditEntry, { operation: 'setCardPurpose' });
    expect(notes.map(({ facts }) => facts)).toContainEqual({
      ...{ kind: 'first aid', was: 'first-aid', purpose: 'waiver', reason: why },
    });
    await database.write((manager) => manager.delete(CardKind, { id: other.id }));
    const kinds = await database.write(async (manager) => {
      const former = await eraseCrew(manager, organisationId);
      const silent = smallCrew.cardKinds.map(({ ref, name }) => ({ ref, name }));
      await writeCrew(manager, organisationId, { ...smallCrew, cardKinds: silent }, former);
      return (await readCrew(manager, organisationId)).cardKinds;
    });
    expect(kinds).toEqual([{ ref: 'first-aid', name: 'first aid', purpose: 'waiver' }]);
  });

  it('reads a document of before, new to the yard, by the names', () => {
    const named = (name: string, ref = 'x') => formerCardPurpose({ ref, name });
    expect([named('First-aid, wilderness'), named('Fire watch'), named('Waiver', 'waiver')]).toEqual([
      'first-aid',
      'hot-work-watch',
      'waiver',
    ]);
    expect(named('Float watch')).toBeNull();
  });
});
