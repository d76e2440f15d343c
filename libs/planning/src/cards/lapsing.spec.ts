import { gateGoesBy, lapsing, leavesNobody, othersHoldOne, seatAsks, workAsks } from './lapsing.js';

const card = (id: string, expiresOn: string | null, volunteerId = 'maud', kindId = 'aid') => ({
  ...{ id, volunteerId, kindId, expiresOn },
});

describe('Cards that lapse', () => {
  it('are told the earliest first, lapsed ones among them, and none that does not lapse by the day', () => {
    const cards = [
      card('a', '2027-05-05'),
      card('b', '2027-01-31', 'noor'),
      card('c', '2027-05-06', 'dov'),
      card('d', null, 'cass'),
    ];
    expect(lapsing(cards, '2027-05-05').map(({ id }) => id)).toEqual(['b', 'a']);
  });

  it('are not told of where the person holds a newer one of the kind', () => {
    const old = card('a', '2027-02-01');
    expect(lapsing([old, card('b', '2029-02-01')], '2027-05-05')).toEqual([]);
    expect(lapsing([card('b', null), old], '2027-05-05')).toEqual([]);
    expect(lapsing([old, card('b', '2029-02-01', 'maud', 'saw')], '2027-05-05')).toHaveLength(1);
  });

  it('matter to seats that ask for them, and to everybody where the work does', () => {
    const saw = { cardKindIds: [], seats: [{ skillId: 'sawing', level: 2, cardKindIds: ['saw'] }] };
    expect(seatAsks(saw, 'saw', { skillId: 'sawing', level: 2 })).toBe(true);
    expect(seatAsks(saw, 'saw', { skillId: null, level: 0 })).toBe(false);
    expect(seatAsks({ ...saw, cardKindIds: ['saw'] }, 'saw', { skillId: null, level: 0 })).toBe(true);
    expect(workAsks(saw, 'saw', new Map([['sawing', 2]]))).toBe(true);
    expect(workAsks(saw, 'saw', new Map([['sawing', 1]]))).toBe(false);
    expect(workAsks(saw, 'aid', new Map([['sawing', 3]]))).toBe(false);
  });

  it('matter to the gates by what they are taken for: first aid everywhere, the watch at hot work', () => {
    expect(gateGoesBy('first-aid', [])).toBe(true);
    expect(gateGoesBy('hot-work-watch', ['hot-work', 'noise'])).toBe(true);
    expect(gateGoesBy('hot-work-watch', ['noise'])).toBe(false);
    expect(gateGoesBy('waiver', ['hot-work'])).toBe(false);
    expect(gateGoesBy(null, ['hot-work'])).toBe(false);
  });

  it('leave a turnout without its first-aider, and hot work without its watch, where nobody else’s counts that day', () => {
    const at = (volunteerId: string | null, taskId = 'burn', turnoutId = 'sat') => ({
      ...{ volunteerId, taskId, turnoutId },
    });
    const lapsed = card('a', '2027-05-01');
    const places = [at('maud'), at('noor', 'saw'), at('dov', 'burn', 'sun'), at(null)];
    const kindIds = new Set(['aid', 'first-response']);
    const leaves = (
      others: ReturnType<typeof card>[],
      purpose: Parameters<typeof leavesNobody>[0] = 'first-aid',
    ) => leavesNobody(purpose, at('maud'), '2027-05-08', { places, cards: [lapsed, ...others], kindIds });
    expect(leaves([])).toBe(true);
    expect(leaves([card('b', '2027-05-08', 'noor')])).toBe(false);
    // Theirs is over as well, or is of another kind, or they are at another turnout.
    expect(leaves([card('b', '2027-05-07', 'noor')])).toBe(true);
    expect(leaves([card('b', null, 'noor', 'saw')])).toBe(true);
    expect(leaves([card('b', null, 'dov')])).toBe(true);
    expect(leaves([card('b', null, 'maud', 'first-response')])).toBe(false);
    // Who works on something else is no watch over this.
    expect(leaves([card('b', null, 'noor')], 'hot-work-watch')).toBe(true);
    expect(leaves([], 'waiver')).toBe(false);
  });

  it('tell the only one from those whose cards are all over by then', () => {
    const at = (volunteerId: string, taskId = 'burn') => ({ volunteerId, taskId, turnoutId: 'sat' });
    const places = [at('maud'), at('noor', 'saw'), { ...at('dov'), turnoutId: 'sun' }];
    const hold = (whose: string[], purpose: 'first-aid' | 'hot-work-watch' = 'first-aid') =>
      othersHoldOne(purpose, at('maud'), {
        ...{ places, kindIds: new Set(['aid']) },
        cards: whose.map((one) => card(one, '2027-05-01', one)),
      });
    expect(hold(['maud'])).toBe(false);
    expect(hold(['maud', 'dov'])).toBe(false);
    expect(hold(['maud', 'noor'])).toBe(true);
    expect(hold(['maud', 'noor'], 'hot-work-watch')).toBe(false);
  });
});
