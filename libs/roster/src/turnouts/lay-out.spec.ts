import { lastTurnoutDay, layOut } from './lay-out.js';

const zone = 'America/Los_Angeles';
const usual = {
  id: 'usual',
  rule: 'FREQ=WEEKLY;BYDAY=WE,SA,SU',
  startsOn: '2027-03-06',
  untilOn: null,
  startTime: '09:00',
  endTime: '14:00',
};

describe('laying out turnouts', () => {
  it('gives 93 turnouts between haul-out and gate, closed days left out', () => {
    const closed = new Set(['2027-03-28', '2027-07-04', '2027-09-11', '2027-09-12']);
    const turnouts = layOut([usual], closed, zone, '2027-03-06', '2027-10-16');
    expect(turnouts).toHaveLength(93);
    expect(turnouts.some((turnout) => closed.has(turnout.heldOn))).toBe(false);
  });

  it('starts at nine on the wall clock through both clock changes', () => {
    const starts = new Map(
      layOut([usual], new Set(), zone, '2027-03-06', '2027-11-14').map((t) => [t.heldOn, t.startsAt]),
    );
    expect(new Date(starts.get('2027-03-13') ?? 0).toISOString()).toBe('2027-03-13T17:00:00.000Z');
    expect(new Date(starts.get('2027-03-14') ?? 0).toISOString()).toBe('2027-03-14T16:00:00.000Z');
    expect(new Date(starts.get('2027-11-06') ?? 0).toISOString()).toBe('2027-11-06T16:00:00.000Z');
    expect(new Date(starts.get('2027-11-07') ?? 0).toISOString()).toBe('2027-11-07T17:00:00.000Z');
  });

  it('makes one turnout where two rules meet', () => {
    const sundays = { ...usual, id: 'sundays', rule: 'FREQ=WEEKLY;BYDAY=SU' };
    const turnouts = layOut([usual, sundays], new Set(), zone, '2027-03-06', '2027-03-14');
    expect(turnouts.map((t) => t.heldOn)).toEqual([
      '2027-03-06',
      '2027-03-07',
      '2027-03-10',
      '2027-03-13',
      '2027-03-14',
    ]);
    expect(new Set(turnouts.map((t) => t.ruleId))).toEqual(new Set(['usual']));
  });

  it('runs 52 weeks past the fallback gate, or past the gate where there is no fallback', () => {
    const gate = { kind: 'gate', on: '2027-10-16' };
    expect(lastTurnoutDay([gate, { kind: 'fallback', on: '2027-11-15' }])).toBe('2028-11-13');
    expect(lastTurnoutDay([gate])).toBe('2028-10-14');
    expect(lastTurnoutDay([])).toBeNull();
  });
});
