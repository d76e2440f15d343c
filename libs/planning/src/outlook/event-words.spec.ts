import { DayWords } from '../words/days.js';
import { eventWords, toldOnce } from './event-words.js';
import { slowWork } from './slow-work.js';

const days = new DayWords('UTC', '2027');
const told = (operation: string, facts: object = {}, subject = '') =>
  eventWords([{ operation, facts, subject }], days)[0]?.words ?? null;

describe('what was recorded, as a reason why a date moved', () => {
  it('late and early deliveries, and holds', () => {
    const stock = 'Plank stock delivered';
    const put = (from: string | null, to: string | null) =>
      told('editTask', { fields: ['notBefore'], notBefore: { from, to } }, stock);
    expect(put('2027-05-31', '2027-06-28')).toBe('“Plank stock delivered” was put off to Mon 28 Jun');
    expect(put('2027-05-31', '2027-05-03')).toBe('“Plank stock delivered” may begin sooner, on Mon 3 May');
    expect(put('2027-05-31', null)).toBe('“Plank stock delivered” no longer waits for a day');
    expect(told('editTask', { held: { from: null, to: 'rain' } }, 'Fair the hull')).toBe(
      '“Fair the hull” was held',
    );
    expect(told('editTask', { held: { from: 'rain', to: null } }, 'Fair the hull')).toBe(
      'the hold on “Fair the hull” was lifted',
    );
    expect(told('editTask', { fields: ['title'] }, stock)).toBeNull();
    expect(told('enterReadings', { readings: 4, held: true })).toBe('her shape moved, and openings are held');
    expect(told('enterReadings', { readings: 4, held: false })).toBeNull();
  });

  it('people who are away, leave, stay out or give places back', () => {
    const away = (facts: object) => told('setAvailability', facts, 'Anselm Druitt');
    expect(away({ away: [{ fromOn: '2027-06-05', toOn: '2027-07-17' }] })).toBe(
      'Anselm Druitt is away from Sat 5 Jun to Sat 17 Jul',
    );
    expect(away({ away: [], leavesOn: '2027-06-30' })).toBe('Anselm Druitt leaves after Wed 30 Jun');
    expect(away({ rules: 2 })).toBe('Anselm Druitt changed when they come');
    expect(told('callTurnout', { came: 4, missing: 3 }, 'Sat 3 Jul')).toBe('3 were missing on Sat 3 Jul');
    expect(told('callTurnout', { came: 9, missing: 0 }, 'Sat 3 Jul')).toBeNull();
    const left = { operation: 'leavePlace', facts: {}, subject: '' };
    expect(eventWords([left, left, left], days)).toEqual([
      { words: '3 places were given back', way: 'later' },
    ]);
    expect(told('cancelTurnout', {}, 'Sat 5 Jun')).toBe('the turnout of Sat 5 Jun was called off');
    expect(told('addClosedDay')).toBe('a day was closed');
  });

  it('findings, scope, limits set aside; and nothing for what moves no date', () => {
    expect(told('survey')).toBe('the survey changed');
    expect(told('addTask', {}, 'Repair the floor')).toBe('“Repair the floor” was added');
    expect(told('dropTask', {}, '')).toBe('some work was left out');
    expect(told('overrideOpeningLimit')).toBe('a limit on openings was set aside');
    const slot = { word: 'confirmed', before: 'released', on: '2027-06-05' };
    expect(told('giveSlotWord', slot)).toBe('the lift slot of Sat 5 Jun is ours again');
    expect(told('giveSlotWord', { ...slot, word: 'released' })).toBe(
      'the lift slot of Sat 5 Jun was released',
    );
    expect(told('signIn')).toBeNull();
    expect(told('playTrouble', { words: 'the sawyer was away longer' })).toBe('the sawyer was away longer');
  });

  it('one event is told once: what a note with words is made of is in its words', () => {
    const entry = (at: number, facts: object, accountId = 'account_perrin') => ({ at, accountId, facts });
    const [before, part, others] = [entry(5, {}), entry(12, { away: [] }), entry(13, {}, 'account_odalys')];
    const played = entry(14, { words: 'the sawyer was away longer', since: 10 });
    const after = entry(15, {});
    expect(toldOnce([before, part, others, played, after])).toEqual([before, others, played, after]);
  });

  it('says which way a date may move by it', () => {
    const way = (operation: string, facts: object = {}) =>
      eventWords([{ operation, facts, subject: '' }], days)[0]?.way;
    expect(['addTask', 'dropTask', 'survey'].map((one) => way(one))).toEqual(['later', 'sooner', 'either']);
    expect(way('playTrouble', { words: 'nine nails were lost', way: 'later' })).toBe('later');
    expect(way('applyWhatIf', { words: '“Fridays” was applied' })).toBe('either');
  });

  it('work that goes slower than the book, once there is enough of it', () => {
    const nails = (count: number, hours: number) =>
      slowWork([{ name: 'plank nails', likely: 5, count, hours }]);
    expect(nails(30, 10)).toEqual([
      { words: 'plank nails went slower than the book (3 an hour, not 5)', way: 'later' },
    ]);
    expect(nails(45, 10)).toEqual([]);
    expect(nails(3, 2)).toEqual([]);
  });
});
