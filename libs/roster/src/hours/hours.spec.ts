import type { Caller } from '@ribband/access';
import { CardEntity, CardKind } from '@ribband/crew';
import { type DatabaseKind, newId, RefusalError, scratchKinds } from '@ribband/platform';
import { TestYard } from '../roster.fixture.js';
import { HourClaimEntity } from './grant-report.entity.js';
import { hoursAt } from './hours.fixture.js';
import { reportCsv } from './report-document.js';

const saturday = '2027-03-06';

async function refusalOf(asked: Promise<unknown>): Promise<{ code: string; field: string | null }> {
  const error: unknown = await asked.then(
    () => null,
    (thrown: unknown) => thrown,
  );
  if (!(error instanceof RefusalError)) throw new Error(`not refused: ${String(error)}`);
  const { code, field } = error.refusal;
  return { code, field };
}

describe.each(scratchKinds())('the hours book on %s', (kind: DatabaseKind) => {
  let yard: TestYard;
  let book: ReturnType<typeof hoursAt>;
  let coordinator: Caller;
  let director: Caller;
  let hand: Caller;
  let taskId: string;

  beforeAll(async () => {
    yard = await TestYard.open(kind);
    book = hoursAt(yard.at);
    coordinator = yard.caller('coordinator');
    director = yard.caller('director');
    hand = await yard.hand('hand-1');
    taskId = await yard.addTask('plug old holes');
    await yard.at.turnouts.add(coordinator, { on: saturday, startTime: '09:00', endTime: '14:00' });
  });
  afterAll(() => yard.close());

  const idOf = async (ref: string) => (await yard.hand(ref)).volunteerId ?? '';
  const paper = async (ref: string, on: string, from: string, to: string) => ({
    volunteerId: await idOf(ref),
    taskId,
    on,
    from,
    to,
    kindId: null,
    note: null,
  });

  it('has what somebody worked from sign-on to sign-off', async () => {
    await book.clockAt(yard, saturday, '09:00');
    const on = await book.signOns.on(hand, { volunteerId: null, taskId, from: null });
    expect((await book.told.openOf(hand))?.id).toBe(on.id);
    await book.clockAt(yard, saturday, '11:30');
    const off = await book.signOns.off(hand, on.id, null);
    expect(off).toMatchObject({ minutes: 150, way: 'self', workedOn: saturday });
    expect(await book.told.openOf(hand)).toBeNull();
    expect(await refusalOf(book.signOns.off(hand, on.id, null))).toMatchObject({ code: 'CHANGED_MEANWHILE' });
  });

  it('has nobody at two pieces of work at once, and nobody for another but the coordinator', async () => {
    const other = await idOf('hand-2');
    const wanted = { volunteerId: other, taskId: null, from: null };
    expect(await refusalOf(book.signOns.on(hand, wanted))).toMatchObject({ code: 'NOT_PERMITTED' });
    const on = await book.signOns.on(coordinator, wanted);
    expect(await refusalOf(book.signOns.on(coordinator, wanted))).toMatchObject({ code: 'HOURS_OVERLAP' });
    const line = await paper('hand-1', saturday, '11:00', '11:30');
    expect(await refusalOf(book.entries.enter(coordinator, [line]))).toEqual({
      code: 'HOURS_OVERLAP',
      field: 'lines[0].from',
    });
    await book.clockAt(yard, saturday, '12:00');
    await book.signOns.off(coordinator, on.id, null);
  });

  it('takes a sheet whole or not at all, and no hours that are still to come', async () => {
    await book.clockAt(yard, saturday, '14:00');
    const good = await paper('hand-3', saturday, '09:00', '14:00');
    const late = await paper('hand-4', saturday, '09:00', '15:00');
    expect(await refusalOf(book.entries.enter(coordinator, [good, late]))).toEqual({
      code: 'BAD_INPUT',
      field: 'lines[1].to',
    });
    expect(await book.told.between(coordinator, good.volunteerId, saturday, saturday)).toEqual([]);
    await book.entries.enter(coordinator, [good]);
    const [entry] = await book.told.between(coordinator, good.volunteerId, saturday, saturday);
    expect(entry).toMatchObject({ minutes: 300, way: 'paper' });
  });

  it('takes no sheet of long before the haul-out', async () => {
    const line = await paper('hand-4', '1970-01-01', '09:00', '11:00');
    expect(await refusalOf(book.entries.enter(coordinator, [line]))).toEqual({
      code: 'BAD_INPUT',
      field: 'lines[0].on',
    });
  });

  it('gives a volunteer their own hours, and nobody hours of days that run backwards', async () => {
    const all = await book.told.between(coordinator, null, saturday, saturday);
    expect(new Set(all.map(({ volunteerId }) => volunteerId)).size).toBeGreaterThan(1);
    const own = await book.told.between(hand, null, saturday, saturday);
    expect(own.map(({ volunteerId }) => volunteerId)).toEqual([hand.volunteerId]);
    const nobody = yard.caller('volunteer');
    expect((await refusalOf(book.told.between(nobody, null, saturday, saturday))).code).toBe('NOT_PERMITTED');
    const backwards = { code: 'BAD_INPUT', field: 'to' };
    expect(await refusalOf(book.told.between(hand, null, saturday, '2027-03-01'))).toEqual(backwards);
    expect(await refusalOf(book.papers.letter(hand, null, saturday, '2027-03-01'))).toEqual(backwards);
  });

  it('keeps what was wrong beside what is right, with who and why', async () => {
    const id = await idOf('hand-3');
    const [wrong] = await book.told.between(coordinator, id, saturday, saturday);
    const right = { from: '09:00', to: '13:00', taskId, kindId: null };
    await book.entries.correct(coordinator, wrong.id, right, 'left an hour early');
    const [entry] = await book.told.between(coordinator, id, saturday, saturday);
    expect(entry).toMatchObject({ minutes: 240, reason: 'left an hour early', enteredBy: 'coordinator' });
    expect(entry.before.map((one) => one.minutes)).toEqual([300]);
    expect(await refusalOf(book.entries.correct(coordinator, wrong.id, right, 'again'))).toMatchObject({
      code: 'CHANGED_MEANWHILE',
    });
  });

  it('closes days that are over, with nobody signed on in them, and changes nothing in them after', async () => {
    expect(await refusalOf(book.periods.close(coordinator, saturday, saturday))).toEqual({
      code: 'BAD_INPUT',
      field: 'to',
    });
    await book.clockAt(yard, saturday, '14:00');
    const open = await book.signOns.on(hand, { volunteerId: null, taskId: null, from: null });
    await book.clockAt(yard, '2027-03-08', '10:00');
    expect(await refusalOf(book.periods.close(coordinator, saturday, '2027-03-07'))).toMatchObject({
      code: 'STILL_IN_USE',
    });
    expect(await refusalOf(book.signOns.off(hand, open.id, null))).toMatchObject({ code: 'BAD_INPUT' });
    await book.signOns.off(hand, open.id, '15:00');
    await book.periods.close(coordinator, saturday, '2027-03-07');
    expect(
      await refusalOf(book.entries.enter(coordinator, [await paper('hand-5', saturday, '09:00', '10:00')])),
    ).toEqual({ code: 'PERIOD_CLOSED', field: 'lines[0].on' });
    const [closed] = await book.told.between(hand, hand.volunteerId, saturday, saturday);
    expect(closed.isClosed).toBe(true);
    expect(await refusalOf(book.entries.correct(hand, closed.id, null, 'not me'))).toMatchObject({
      code: 'PERIOD_CLOSED',
    });
  });

  it('puts closed hours right by an adjustment that is dated on an open day', async () => {
    const id = await idOf('hand-3');
    const [closed] = await book.told.between(coordinator, id, saturday, saturday);
    expect(await refusalOf(book.entries.adjust(coordinator, closed.id, -300, 'more than all'))).toEqual({
      code: 'BAD_INPUT',
      field: 'minutes',
    });
    const adjusted = await book.entries.adjust(coordinator, closed.id, -60, 'lunch was not taken off');
    expect(adjusted).toMatchObject({ workedOn: '2027-03-08', minutes: -60, way: 'adjustment' });
  });

  it('makes a report with sourced rates, each hour for one award only, and keeps it as it was', async () => {
    const draft = {
      funder: 'Harbor Trust',
      awardNumber: 'HT-7',
      from: saturday,
      to: '2027-03-31',
      kindIds: [],
    };
    const first = await book.grants.setGrant(director, null, { ...draft, name: 'Frames' });
    const second = await book.grants.setGrant(director, null, { ...draft, name: 'Planks' });
    const wanted = { grantId: first.id, from: saturday, to: '2027-03-07' };
    expect(await refusalOf(book.reports.make(coordinator, wanted))).toEqual({
      code: 'BAD_INPUT',
      field: 'grantId',
    });
    const rate = { kindId: null, grantId: null, from: '2027-01-01', centsAnHour: 3000 };
    await book.grants.addRate(director, { ...rate, source: 'the yard’s pay for similar work' });
    const report = await book.reports.make(coordinator, wanted);
    // By hand: 150 + 60, 30 and 240 minutes are 8 hours, at $30.
    expect(report.document.byPerson.map(({ name, minutes }) => [name, minutes])).toEqual([
      ['hand-1', 210],
      ['hand-2', 30],
      ['hand-3', 240],
    ]);
    expect(report).toMatchObject({ minutes: 480, cents: 24_000 });
    expect(report.csv.split('\r\n')[1]).toContain('the yard’s pay for similar work');

    const other = { ...wanted, grantId: second.id };
    expect(await refusalOf(book.reports.make(coordinator, other))).toMatchObject({ code: 'BAD_INPUT' });
    expect((await book.reports.draft(coordinator, other)).leftOut).toEqual([
      { why: 'hours that count for another award', minutes: 480 },
    ]);
    const [claim] = await yard.at.database.read.find(HourClaimEntity, { take: 1 });
    await expect(
      yard.at.database.write((manager) =>
        manager.insert(HourClaimEntity, { ...claim, id: 'hourclaim_x', grantId: second.id }),
      ),
    ).rejects.toThrow(/unique/i);

    await book.grants.addRate(director, { ...rate, centsAnHour: 9900, source: 'changed our minds' });
    const again = await book.reports.one(director, report.id);
    expect(again).toMatchObject({ hash: report.hash, csv: report.csv, document: report.document });
    expect(reportCsv(report.document)).toBe(report.csv);
  });

  it('lets the hours of a report that was withdrawn count elsewhere', async () => {
    const [report] = await book.reports.list(director);
    await book.reports.withdraw(director, report.id, 'the wrong grant');
    const grants = await book.grants.grants(director);
    const planks = grants.find((grant) => grant.name === 'Planks')?.id ?? '';
    const draft = await book.reports.draft(coordinator, {
      grantId: planks,
      from: saturday,
      to: '2027-03-07',
    });
    expect(draft.minutes).toBe(480);
    expect((await book.reports.one(director, report.id))?.document.minutes).toBe(480);
  });

  it('closes what is still signed on at the day’s roll', async () => {
    await book.clockAt(yard, '2027-03-08', '10:00');
    const turnout = await yard.at.turnouts.add(coordinator, {
      on: '2027-03-08',
      startTime: '09:00',
      endTime: '14:00',
    });
    const on = await book.signOns.on(hand, { volunteerId: null, taskId, from: null });
    const left = (on.startsAt ?? 0) + 2 * 3_600_000;
    const closed = await yard.at.database.write((manager) =>
      book.signOns.closeAtRoll(manager, turnout, () => left),
    );
    expect([...closed]).toEqual([[hand.volunteerId, on.id]]);
    const [entry] = await book.told.between(hand, hand.volunteerId, '2027-03-08', '2027-03-08');
    expect(entry).toMatchObject({ minutes: 120, endedBy: 'the roll' });
    const { lines } = await book.papers.crewList(coordinator, turnout.id);
    expect(lines).toMatchObject([
      { name: 'hand-1', expected: false, work: ['plug old holes'], waiver: null },
    ]);
    // One form of the yard’s own, and one that the harbour asks for: either is a waiver.
    const { organisationId } = yard;
    const [volunteerId, issuer] = [hand.volunteerId ?? '', 'the yard'];
    const kinds = ['yard form', 'harbour form'].map((name) => ({ id: newId('cardkind'), ref: name, name }));
    const waiverOf = async () => (await book.papers.crewList(coordinator, turnout.id)).lines[0].waiver;
    await yard.at.database.write(async (manager) => {
      for (const one of kinds) await manager.insert(CardKind, { ...one, organisationId, purpose: 'waiver' });
    });
    expect(await waiverOf()).toBe(false);
    for (const { id: kindId } of kinds) {
      const id = newId('card');
      const card = { id, organisationId, volunteerId, kindId, issuer, expiresOn: null };
      await yard.at.database.write((manager) => manager.insert(CardEntity, card));
      expect(await waiverOf()).toBe(true);
      await yard.at.database.write((manager) => manager.delete(CardEntity, { id }));
    }
  });

  it('thanks somebody for their hours in a letter, and shows it to nobody else', async () => {
    const letter = await book.papers.letter(hand, null, saturday, '2027-03-31');
    expect(letter).toMatchObject({ name: 'hand-1', minutes: 330, days: 2, closed: [] });
    const stranger = await yard.hand('hand-9');
    expect(
      await refusalOf(book.papers.letter(stranger, hand.volunteerId, saturday, '2027-03-31')),
    ).toMatchObject({ code: 'NOT_PERMITTED' });
  });
});

describe.each(scratchKinds())('signing on to named work, on %s', (kind: DatabaseKind) => {
  let yard: TestYard;
  let book: ReturnType<typeof hoursAt>;
  let coordinator: Caller;
  let turnoutId: string;

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    book = hoursAt(yard.at);
    coordinator = yard.caller('coordinator');
    const hours = { startTime: '09:00', endTime: '14:00' };
    turnoutId = (await yard.at.turnouts.add(coordinator, { on: saturday, ...hours })).id;
    await book.clockAt(yard, saturday, '09:10');
  });
  afterEach(() => yard.close());

  const idOf = async (ref: string) => (await yard.hand(ref)).volunteerId ?? '';
  const on = async (ref: string, taskId: string | null) =>
    book.signOns.on(coordinator, { volunteerId: await idOf(ref), taskId, from: null });
  const stop = async (ref: string, taskId: string) => {
    const refusal = await refusalOf(on(ref, taskId));
    expect(refusal.field).toBe('taskId');
    return refusal.code;
  };

  it('asks the gates of who has no place on it, and lets them work on what is not named', async () => {
    const saw = await yard.addTask('Saw', { leastAge: 18 });
    const sawyer = await yard.skill('sawyer');
    const steam = await yard.addTask('Steam', { crewMax: 1 }, [{ skillId: sawyer }]);
    await on('hand-1', null);
    expect(await stop('cass', saw)).toBe('TOO_YOUNG');
    expect(await stop('hand-2', steam)).toBe('SKILL_MISSING');
    await expect(on('hand-2', steam)).rejects.toMatchObject({
      refusal: { remedy: 'Sign on without naming work, or ask the coordinator for a place.' },
    });
    expect((await on('cass', null)).taskId).toBeNull();
    // Who has the skill may, and a crew comes together one by one.
    expect((await on('anselm', steam)).taskId).toBe(steam);
    const carry = await yard.addTask('Carry planks', { crewMin: 3 });
    expect((await on('hand-2', carry)).taskId).toBe(carry);
  });

  it('lets no one on to work that is held, nor off the hours of a turnout', async () => {
    const held = await yard.addTask('Shift the cradle', { held: 'the shore is loose' });
    const saw = await yard.addTask('Saw', { leastAge: 18 });
    expect(await stop('hand-1', held)).toBe('TASK_NOT_READY');
    await book.clockAt(yard, '2027-03-08', '10:00');
    expect(await stop('cass', saw)).toBe('TOO_YOUNG');
    expect((await on('hand-1', saw)).turnoutId).toBeNull();
  });

  it('takes who has signed on for company, but nobody who has not', async () => {
    const carry = await yard.addTask('Carry planks');
    await on('hand-1', null);
    expect(await stop('cass', carry)).toBe('NEEDS_SUPERVISOR');
    await on('hand-2', carry);
    expect((await on('cass', carry)).taskId).toBe(carry);
  });

  it('lets whoever has a place in, but where age or a card stops them now', async () => {
    const scrape = await yard.addTask('Scrape paint', { hazards: ['lead'] });
    await yard.addPlace({ turnoutId, taskId: scrape, volunteerId: await idOf('hand-2'), state: 'taken' });
    await on('hand-1', null);
    // Nobody has written the permit yet.
    expect(await stop('hand-3', scrape)).toBe('GATE_CLOSED');
    expect((await on('hand-2', scrape)).taskId).toBe(scrape);
    const saw = await yard.addTask('Saw', { leastAge: 18 });
    await yard.addPlace({ turnoutId, taskId: saw, volunteerId: await idOf('cass'), state: 'taken' });
    expect(await stop('cass', saw)).toBe('TOO_YOUNG');
    const { cardKindIds } = await firstAidAsked();
    const aid = await yard.addTask('Stand by', { cardKindIds });
    await yard.addPlace({ turnoutId, taskId: aid, volunteerId: await idOf('hand-3') });
    expect(await stop('hand-3', aid)).toBe('CARD_MISSING');
    const at = { turnoutId, taskId: aid, volunteerId: await idOf('hand-3') };
    await yard.at.overrides.grant(
      yard.caller('director'),
      at,
      'card',
      'The course is done; the paper comes by mail.',
    );
    expect((await on('hand-3', aid)).taskId).toBe(aid);
  });

  const firstAidAsked = async () => {
    const kinds = await yard.at.database.read.findBy(CardKind, { ref: 'first-aid' });
    return { cardKindIds: kinds.map(({ id }) => id) };
  };
});
