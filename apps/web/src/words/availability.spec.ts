import { sayAttendance, sayException } from './attendance.js';
import { makeRule, rhythms, sayRule, weekdays } from './availability.js';

test('the crew’s own rules are said in words', () => {
  expect(sayRule('FREQ=WEEKLY;BYDAY=WE,SA')).toBe('every Wednesday and Saturday');
  expect(sayRule('FREQ=WEEKLY;INTERVAL=2;BYDAY=SA')).toBe('every other Saturday');
  expect(sayRule('FREQ=MONTHLY;BYDAY=1SA,3SA')).toBe('the first and third Saturday of the month');
  expect(sayRule('FREQ=MONTHLY;BYDAY=-1SU')).toBe('the last Sunday of the month');
  expect(sayRule('FREQ=WEEKLY;BYDAY=SU;UNTIL=20270701T065959Z')).toBe('every Sunday, until 1 July 2027');
});

test('a rule that says more than the words can is never shortened to something else', () => {
  expect(sayRule('FREQ=WEEKLY;BYDAY=SA;COUNT=3')).toBeNull();
  expect(sayRule('FREQ=MONTHLY;BYDAY=SA;BYSETPOS=2')).toBeNull();
  expect(sayRule('FREQ=YEARLY;BYMONTH=6')).toBeNull();
  expect(sayAttendance({ rule: 'FREQ=YEARLY;BYMONTH=6', startsOn: '2027-03-06' })).toBe(
    'by a rule of its own (FREQ=YEARLY;BYMONTH=6)',
  );
});

test('every rule that the form can make is one that the page can say', () => {
  for (const rhythm of rhythms) {
    for (const day of weekdays) expect(sayRule(makeRule(rhythm.value, [day.code]))).toContain(day.name);
  }
});

test('days are put in the order of the week, however they were ticked', () => {
  expect(makeRule('weekly', ['SU', 'WE'])).toBe('FREQ=WEEKLY;BYDAY=WE,SU');
  expect(makeRule('last', ['SA'])).toBe('FREQ=MONTHLY;BYDAY=-1SA');
});

test('hours and ends are said with the days', () => {
  expect(
    sayAttendance({
      rule: 'FREQ=WEEKLY;BYDAY=SA',
      startsOn: '2027-03-06',
      untilOn: '2027-06-30',
      from: '09:00',
      to: '12:00',
    }),
  ).toBe('every Saturday, 09:00 to 12:00, until 30 June');
  expect(sayException({ fromOn: '2027-06-05', toOn: '2027-06-26', canCome: false })).toBe(
    'away from 5 June to 26 June',
  );
  expect(sayException({ fromOn: '2027-03-14', toOn: '2027-03-14', canCome: true })).toBe(
    'can come on Sunday 14 March',
  );
});
