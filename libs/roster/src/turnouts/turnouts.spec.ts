import type { Caller } from '@ribband/access';
import { ComputeJob, RefusalError, scratchKinds } from '@ribband/platform';
import { TestYard } from '../roster.fixture.js';

const refused = async (work: Promise<unknown>) => {
  const error = await work.then(
    () => null,
    (reason: unknown) => reason,
  );
  return error instanceof RefusalError ? error.refusal : null;
};

describe.each(scratchKinds())('turnouts on %s', (kind) => {
  let yard: TestYard;
  let coordinator: Caller;
  const usual = {
    rule: 'FREQ=WEEKLY;BYDAY=WE,SA,SU',
    startsOn: '2027-03-06',
    startTime: '09:00',
    endTime: '14:00',
  };
  const days = async (from: string, to: string) =>
    (await yard.at.turnouts.between(coordinator, from, to)).map((turnout) => turnout.heldOn);

  const closure = (on: string, name: string | null = null) => ({ fromOn: on, toOn: on, name, yearly: false });
  const close = (one: ReturnType<typeof closure>, keeps = false) =>
    yard.at.closedDays.close(coordinator, [one], keeps);

  beforeEach(async () => {
    yard = await TestYard.open(kind);
    coordinator = yard.caller('coordinator');
  });
  afterEach(() => yard.close());

  it('follow a rule to a year past the gate, and the plan is asked for anew', async () => {
    await yard.at.turnouts.setRule(coordinator, usual);
    expect(await days('2027-03-06', '2027-03-14')).toEqual([
      '2027-03-06',
      '2027-03-07',
      '2027-03-10',
      '2027-03-13',
      '2027-03-14',
    ]);
    expect(await days('2028-05-10', '2028-06-30')).toEqual(['2028-05-10', '2028-05-13']);
    const jobs = await yard.at.database.read.findBy(ComputeJob, { organisationId: yard.organisationId });
    expect(jobs).toMatchObject([{ name: 'plan', state: 'waiting', revision: 1 }]);
  });

  it('stay when the rule changes if people are posted to them, and go if nobody is', async () => {
    const rule = await yard.at.turnouts.setRule(coordinator, usual);
    const kept = await yard.turnout('2027-03-07');
    await yard.addPlace({ turnoutId: kept.id, taskId: await yard.addTask('Carry planks') });
    await yard.at.turnouts.setRule(coordinator, {
      ...usual,
      id: rule.id,
      version: rule.version,
      rule: 'FREQ=WEEKLY;BYDAY=SA',
    });
    expect(await days('2027-03-06', '2027-03-14')).toEqual(['2027-03-06', '2027-03-07', '2027-03-13']);
    expect((await yard.turnout('2027-03-07')).id).toBe(kept.id);
  });

  it('are called off, not forgotten, when a day is closed to which people are posted', async () => {
    await yard.at.turnouts.setRule(coordinator, usual);
    const sunday = await yard.turnout('2027-03-07');
    await yard.addPlace({ turnoutId: sunday.id, taskId: await yard.addTask('Carry planks') });
    await close(closure('2027-03-07', 'the yard has the lift'));
    await close(closure('2027-03-10'));
    expect(await days('2027-03-06', '2027-03-13')).toEqual(['2027-03-06', '2027-03-07', '2027-03-13']);
    expect(await yard.turnout('2027-03-07')).toMatchObject({ cancelReason: 'the yard has the lift' });
  });

  it('are kept on a holiday where the coordinator says so, and told of either way', async () => {
    await yard.at.turnouts.setRule(coordinator, usual);
    const kept = await yard.turnout('2027-03-07');
    await yard.addPlace({ turnoutId: kept.id, taskId: await yard.addTask('Carry planks') });
    const week = { ...closure('2027-03-06', 'Harbor week'), toOn: '2027-03-13' };
    const { closedDays, turnouts } = await close(week, true);
    expect(closedDays).toHaveLength(8);
    expect(turnouts).toMatchObject([{ id: kept.id, cancelledAt: null }]);
    expect(await days('2027-03-06', '2027-03-14')).toEqual(['2027-03-07', '2027-03-14']);
    // Opened again, the rules are laid out there once more.
    expect(await yard.at.closedDays.reopen(coordinator, '2027-03-08', '2027-03-13')).toHaveLength(6);
    expect(await days('2027-03-06', '2027-03-14')).toEqual([
      '2027-03-07',
      '2027-03-10',
      '2027-03-13',
      '2027-03-14',
    ]);
  });

  it('are laid out on no yearly holiday, as far as any are', async () => {
    await yard.at.turnouts.setRule(coordinator, usual);
    const { closedDays } = await close({ ...closure('2027-03-14', 'Founders’ day'), yearly: true });
    expect(closedDays.map(({ closedOn }) => closedOn)).toEqual(['2027-03-14', '2028-03-14']);
  });

  it('are closed by those who run the days, for days that there are', async () => {
    const field = async (change: object, caller = coordinator) =>
      (await refused(yard.at.closedDays.close(caller, [{ ...closure('2027-03-07'), ...change }], false)))
        ?.field;
    expect(await field({ fromOn: '2027-02-30' })).toBe('fromOn');
    expect(await field({ toOn: '2027-03-06' })).toBe('toOn');
    expect(await field({ toOn: '2028-03-20' })).toBe('toOn');
    expect(await field({ fromOn: '0001-01-01', toOn: '0001-01-01', yearly: true })).toBe('toOn');
    const many = Array.from({ length: 1001 }, () => closure('2027-03-07'));
    expect((await refused(yard.at.closedDays.close(coordinator, many, false)))?.field).toBe('toOn');
    expect(await refused(yard.at.closedDays.close(coordinator, [], false))).toMatchObject({
      code: 'BAD_INPUT',
      field: 'closures',
    });
    const volunteer = await yard.hand('hand-1');
    expect((await refused(yard.at.closedDays.close(volunteer, [closure('2027-03-07')], false)))?.code).toBe(
      'NOT_PERMITTED',
    );
    expect((await refused(yard.at.closedDays.reopen(coordinator, '2027-03-07', '2027-03-07')))?.code).toBe(
      'NOT_FOUND',
    );
    await close(closure('2027-03-07'));
    expect((await refused(close(closure('2027-03-07'))))?.code).toBe('ALREADY_EXISTS');
    const other = { on: '2027-03-07', startTime: '17:00', endTime: '20:00' };
    expect((await refused(yard.at.turnouts.add(coordinator, other)))?.field).toBe('on');
  });

  it('can be added by hand where none is', async () => {
    await yard.at.turnouts.setRule(coordinator, usual);
    const evening = {
      on: '2027-03-09',
      startTime: '17:00',
      endTime: '20:00',
      note: 'an evening for the mill',
    };
    expect(await yard.at.turnouts.add(coordinator, evening)).toMatchObject({
      heldOn: '2027-03-09',
      ruleId: null,
    });
    const clash = { on: '2027-03-06', startTime: '13:00', endTime: '16:00' };
    expect((await refused(yard.at.turnouts.add(coordinator, clash)))?.code).toBe('ALREADY_EXISTS');
    const backwards = { on: '2027-03-11', startTime: '13:00', endTime: '12:00' };
    expect(await refused(yard.at.turnouts.add(coordinator, backwards))).toMatchObject({ field: 'endTime' });
  });

  it('are not made by a rule that never occurs or that would lay two over each other', async () => {
    const never = await refused(
      yard.at.turnouts.setRule(coordinator, { ...usual, rule: 'FREQ=YEARLY;BYMONTH=2;BYMONTHDAY=30' }),
    );
    expect(never).toMatchObject({ code: 'RULE_NEVER_OCCURS', field: 'rule' });
    await yard.at.turnouts.setRule(coordinator, usual);
    const over = { ...usual, rule: 'FREQ=WEEKLY;BYDAY=SU', startTime: '13:00', endTime: '17:00' };
    expect((await refused(yard.at.turnouts.setRule(coordinator, over)))?.code).toBe('BAD_INPUT');
    expect(await yard.at.turnouts.rules(coordinator)).toHaveLength(1);
  });

  it('are changed by those who run the days and by nobody else, and only from what was read last', async () => {
    const volunteer = await yard.hand('hand-1');
    expect((await refused(yard.at.turnouts.setRule(volunteer, usual)))?.code).toBe('NOT_PERMITTED');
    const turnout = await yard.at.turnouts.add(coordinator, { ...usual, on: '2027-03-06' });
    expect((await refused(yard.at.turnouts.cancel(coordinator, turnout.id, 7, 'storm')))?.code).toBe(
      'CHANGED_MEANWHILE',
    );
    expect((await refused(yard.at.turnouts.cancel(coordinator, turnout.id, 1, ' ')))?.field).toBe('reason');
    const long = 'x'.repeat(501);
    expect((await refused(yard.at.turnouts.cancel(coordinator, turnout.id, 1, long)))?.field).toBe('reason');
    expect((await refused(close(closure('2027-03-07', long))))?.field).toBe('name');
    expect((await close(closure('2027-03-07', ''))).closedDays).toMatchObject([{ reason: null }]);
    const noted = { ...usual, on: '2027-03-08', note: long };
    expect((await refused(yard.at.turnouts.add(coordinator, noted)))?.field).toBe('note');
    await yard.at.turnouts.cancel(coordinator, turnout.id, 1, 'storm');
    expect((await refused(yard.at.turnouts.cancel(coordinator, turnout.id, 2, 'storm')))?.code).toBe(
      'TURNOUT_OVER',
    );
  });
});
