import type { DatedTurnout } from './lay-out.js';
import { changesBetween } from './relay-out.js';
import type { TurnoutEntity } from './turnout.entity.js';

const hour = 3_600_000;
const saturday = Date.parse('2027-03-06T00:00:00Z');

function wanted(startTime = '09:00', hours = 5, day = 0): DatedTurnout {
  const startsAt = saturday + day * 24 * hour + Number(startTime.slice(0, 2)) * hour;
  return {
    ruleId: 'usual',
    heldOn: `2027-03-0${String(6 + day)}`,
    startTime,
    endTime: `${String(Number(startTime.slice(0, 2)) + hours)}:00`,
    startsAt,
    endsAt: startsAt + hours * hour,
  };
}

function known(turnout: DatedTurnout, rest: Partial<TurnoutEntity> = {}): TurnoutEntity {
  const row = {
    id: 'known',
    organisationId: 'org',
    version: 1,
    kind: null,
    note: null,
    cancelledAt: null,
    cancelReason: null,
  };
  return { ...row, ...turnout, ...rest };
}

const none = new Set<string>();
const some = new Set(['known']);

describe('laying the rules out anew', () => {
  it('leaves alone what is as the rules want it', () => {
    const changes = changesBetween([wanted()], [known(wanted())], none, saturday);
    expect(changes).toEqual({ insert: [], stretch: [], remove: [] });
  });

  it('takes away what the rules no longer want, but not where people have places', () => {
    expect(changesBetween([], [known(wanted())], none, saturday).remove).toEqual(['known']);
    expect(changesBetween([], [known(wanted())], some, saturday).remove).toEqual([]);
  });

  it('leaves a turnout that is over, was cancelled, or was entered by hand', () => {
    expect(changesBetween([], [known(wanted())], none, saturday + 20 * hour).remove).toEqual([]);
    expect(changesBetween([], [known(wanted(), { cancelledAt: 1 })], none, saturday).remove).toEqual([]);
    expect(changesBetween([], [known(wanted(), { ruleId: null })], none, saturday).remove).toEqual([]);
  });

  it('does not hold a cancelled turnout after all', () => {
    const changes = changesBetween([wanted()], [known(wanted(), { cancelledAt: 1 })], none, saturday);
    expect(changes.insert).toEqual([]);
  });

  it('moves the end of a turnout that people are posted to', () => {
    const changes = changesBetween([wanted('09:00', 6)], [known(wanted())], some, saturday);
    expect(changes.stretch).toEqual([{ id: 'known', endTime: '15:00', endsAt: wanted('09:00', 6).endsAt }]);
    expect(changes.insert).toEqual([]);
  });

  it('never lays a turnout over one that stays', () => {
    expect(changesBetween([wanted('10:00')], [known(wanted())], some, saturday).insert).toEqual([]);
    expect(changesBetween([wanted('10:00')], [known(wanted())], none, saturday).insert).toHaveLength(1);
    expect(changesBetween([wanted('14:00', 3)], [known(wanted())], some, saturday).insert).toHaveLength(1);
  });
});
