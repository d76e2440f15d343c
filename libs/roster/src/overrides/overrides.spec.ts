import { AuditEntry, type Caller } from '@ribband/access';
import { RefusalError, scratchKinds } from '@ribband/platform';
import { TestYard } from '../roster.fixture.js';
import type { CallGiven } from '../call/calling.service.js';

const reason = 'She has sawn under my eye since the autumn; I stand beside her.';

describe.each(scratchKinds())('setting a stop aside on %s', (kind) => {
  let yard: TestYard;
  let director: Caller;
  let shipwright: Caller;
  let coordinator: Caller;
  let saturday: string;
  let sunday: string;
  let sawyer: string;
  let saw: string;

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    [director, shipwright, coordinator] = [
      yard.caller('director'),
      yard.caller('shipwright'),
      yard.caller('coordinator'),
    ];
    const hours = { startTime: '09:00', endTime: '14:00' };
    saturday = (await yard.at.turnouts.add(coordinator, { on: '2027-03-06', ...hours })).id;
    sunday = (await yard.at.turnouts.add(coordinator, { on: '2027-03-14', ...hours })).id;
    sawyer = await yard.skill('sawyer');
    saw = await yard.addTask('Saw', { hazards: ['eye'] }, [{ skillId: sawyer }]);
  });
  afterEach(() => yard.close());

  const id = async (ref: string) => (await yard.hand(ref)).volunteerId ?? '';
  const code = (work: Promise<unknown>) =>
    work.then(
      () => 'yes',
      (error: unknown) => {
        if (error instanceof RefusalError) return error.refusal.code;
        throw error;
      },
    );
  const seatFor = (turnoutId: string, taskId = saw) =>
    yard.addPlace({ turnoutId, taskId, skillId: sawyer, level: 2 });
  const grant = async (who: Caller, ref: string, rest: Partial<{ rule: 'skill' | 'permit' }> = {}) =>
    yard.at.overrides.grant(
      who,
      { turnoutId: saturday, taskId: saw, volunteerId: await id(ref) },
      rest.rule ?? 'skill',
      reason,
    );

  it('lets that person on that task on that day, and nobody else, nothing else and no other day', async () => {
    const other = await yard.addTask('Saw a floor', {}, [{ skillId: sawyer }]);
    const [place, elsewhere, later] = [
      await seatFor(saturday),
      await seatFor(saturday, other),
      await seatFor(sunday),
    ];
    const hand = await yard.hand('hand-1');
    const take = (who: Caller, placeId: string) => code(yard.at.places.take(who, placeId));
    expect(await take(hand, place.id)).toBe('SKILL_MISSING');
    const override = await grant(shipwright, 'hand-1');
    expect(override).toMatchObject({ rule: 'skill', reason, grantedBy: 'shipwright', withdrawnAt: null });
    expect(override.stopped).toMatch(/asks for sawyer/);
    expect(await take(await yard.hand('hand-2'), place.id)).toBe('SKILL_MISSING');
    expect(await take(hand, elsewhere.id)).toBe('SKILL_MISSING');
    expect(await take(hand, later.id)).toBe('SKILL_MISSING');
    const open = await yard.at.open.permittedTo(hand);
    const offered = open.find((one) => one.place.id === place.id);
    expect(offered?.cautions.map(({ words }) => words).join(' ')).toMatch(/shipwright has set this aside/);
    expect(await take(hand, place.id)).toBe('yes');
  });

  it('is nobody’s for themselves, nor a volunteer’s or the coordinator’s for others', async () => {
    const hand = await yard.hand('hand-1');
    expect(await code(grant(hand, 'hand-1'))).toBe('NOT_PERMITTED');
    expect(await code(grant(hand, 'hand-2'))).toBe('NOT_PERMITTED');
    expect(await code(grant(coordinator, 'hand-2'))).toBe('NOT_PERMITTED');
    const own = { ...director, volunteerId: await id('hand-3') };
    expect(await code(grant(own, 'hand-3'))).toBe('NOT_PERMITTED');
    expect(await code(grant(own, 'hand-2'))).toBe('yes');
  });

  it('is given by whoever has all of the shipwright’s authority in writing, in the shipwright’s name', async () => {
    const stand = { ...coordinator, volunteerId: await id('anselm'), name: 'Anselm' };
    const given = (scope: 'all' | 'skill', fromOn: string) => ({
      id: `delegation_${scope}_${fromOn}`,
      organisationId: yard.organisationId,
      volunteerId: stand.volunteerId,
      scope,
      names: scope === 'skill' ? [sawyer] : [],
      fromOn,
      untilOn: fromOn,
      reason: 'away',
      givenBy: 'Odalys Brenn',
      givenAt: 0,
      revokedAt: null,
      revokedBy: null,
    });
    const { database } = yard.at;
    const add = (row: ReturnType<typeof given>) =>
      database.write((manager) => manager.save('DelegationEntity', row));
    await add(given('skill', '2027-03-06'));
    await add(given('all', '2027-03-05'));
    expect(await code(grant(stand, 'hand-1'))).toBe('NOT_PERMITTED');
    await add(given('all', '2027-03-06'));
    expect((await grant(stand, 'hand-1')).grantedBy).toBe('Anselm, for Odalys Brenn');
  });

  it('is refused where nobody may, for ages by all but the director, and where nothing stops', async () => {
    const cut = await yard.addTask('Cut bolts', { hazards: ['hot-work'] });
    const asked = { turnoutId: saturday, taskId: cut, volunteerId: await id('hand-1') };
    const set = (who: Caller, rule: 'permit' | 'fire-watch' | 'skill', task = asked) =>
      code(yard.at.overrides.grant(who, task, rule, reason));
    expect(await set(director, 'permit')).toBe('NOT_PERMITTED');
    expect(await set(director, 'fire-watch')).toBe('NOT_PERMITTED');
    expect(await set(director, 'skill')).toBe('BAD_INPUT');
    const saw17 = await yard.addTask('Plane', { hazards: ['machine'] });
    const minor = { turnoutId: saturday, taskId: saw17, volunteerId: await id('cass') };
    const age = (who: Caller) => code(yard.at.overrides.grant(who, minor, 'age-for-hazard', reason));
    expect(await age(shipwright)).toBe('NOT_PERMITTED');
    expect(await age(director)).toBe('yes');
  });

  it('asks for a reason, and for a turnout that is to come', async () => {
    const asked = { turnoutId: saturday, taskId: saw, volunteerId: await id('hand-1') };
    const { overrides } = yard.at;
    const short = overrides.grant(director, asked, 'skill', 'ok');
    await expect(short).rejects.toMatchObject({ refusal: { code: 'BAD_INPUT', field: 'reason' } });
    await yard.at.turnouts.cancel(coordinator, saturday, 1, 'storm');
    expect(await code(grant(director, 'hand-1'))).toBe('TURNOUT_OVER');
  });

  it('is withdrawn, and then stops again; both stay on the record', async () => {
    const place = await seatFor(saturday);
    const hand = await yard.hand('hand-1');
    const override = await grant(director, 'hand-1');
    expect(await code(grant(director, 'hand-1'))).toBe('ALREADY_EXISTS');
    await yard.at.overrides.withdraw(coordinator, override.id);
    expect(await code(yard.at.overrides.withdraw(coordinator, override.id))).toBe('CHANGED_MEANWHILE');
    expect(await code(yard.at.overrides.withdraw(hand, override.id))).toBe('NOT_PERMITTED');
    expect(await code(yard.at.places.take(hand, place.id))).toBe('SKILL_MISSING');
    const [row] = await yard.at.overrides.ofTurnout(director, saturday);
    expect(row).toMatchObject({ id: override.id, withdrawnBy: 'coordinator', reason });
    const noted = await yard.at.database.read.findBy(AuditEntry, { subjectId: override.id });
    expect(noted.map(({ operation }) => operation).sort()).toEqual(['overrideStop', 'withdrawStopOverride']);
    expect(noted.find(({ operation }) => operation === 'overrideStop')?.facts).toMatchObject({ reason });
  });

  it('tells beforehand what stops somebody there and whether the asker may set it aside', async () => {
    const asked = { turnoutId: saturday, taskId: saw, volunteerId: await id('hand-2') };
    const rules = async (who: Caller) =>
      Object.fromEntries(
        (await yard.at.overrides.stops(who, asked)).map(({ rule, mayOverride }) => [rule, mayOverride]),
      );
    // On the day nobody with a card has a place yet.
    expect(await rules(shipwright)).toMatchObject({ skill: true, 'first-aider': false });
    expect(await rules(director)).toMatchObject({ skill: true, 'first-aider': true });
    expect(await rules(coordinator)).toMatchObject({ skill: false, 'first-aider': false });
    expect(await rules({ ...director, volunteerId: asked.volunteerId })).toMatchObject({ skill: false });
  });

  it('is honoured when the week is posted and when the turnout is called', async () => {
    const seat = { turnoutId: saturday, taskId: saw, skillId: sawyer, level: 2, why: null };
    const { startsAt, endsAt } = await yard.turnout('2027-03-06');
    const [one, two] = [await id('hand-1'), await id('hand-2')];
    const seats = [one, two].map((volunteerId) => ({ ...seat, volunteerId, startsAt, endsAt }));
    await grant(shipwright, 'hand-1');
    const posted = await yard.at.database.write((manager) =>
      yard.at.posting.post(manager, yard.organisationId, [saturday], seats, 'plan'),
    );
    expect(posted.turnedAway.map((away) => away.seat.volunteerId)).toEqual([two]);
    const call: CallGiven = {
      turnoutId: saturday,
      version: 0,
      present: [one, two].map((volunteerId) => ({ volunteerId, how: 'ticked', arrivedAt: null })),
      absent: [],
      visitors: [],
      seats,
      fallen: [],
    };
    const { call: called } = await yard.at.calling.confirm(coordinator, call, null);
    expect(called.turnedAway).toHaveLength(1);
    expect(called.turnedAway[0]).toMatch(/^hand-2/);
  });
});
