import {
  addDays,
  dayOf,
  daysBetween,
  mondayOf,
  sayDay,
  sayDistance,
  sayShortDay,
  saySpan,
  timeOf,
} from './dates.js';

const zone = 'America/Los_Angeles';

test('a day is said with its weekday', () => {
  expect(sayDay('2027-10-16')).toBe('Saturday 16 October');
});

test('the year is said only when it is another', () => {
  expect(sayShortDay('2027-10-16', '2027-03-06')).toBe('16 October');
  expect(sayShortDay('2028-01-23', '2027-03-06')).toBe('23 January 2028');
});

test('an instant stands on the yard’s day, not on Greenwich’s', () => {
  expect(dayOf('2027-03-07T02:00:00Z', zone)).toBe('2027-03-06');
  expect(timeOf('2027-03-07T02:00:00Z', zone)).toBe('18:00');
});

test('the clock change of 14 March moves the hour in Greenwich, not in the yard', () => {
  expect(timeOf('2027-03-13T17:00:00Z', zone)).toBe('09:00');
  expect(timeOf('2027-03-20T16:00:00Z', zone)).toBe('09:00');
});

test('work within a turnout is said with its hours, longer work with its days', () => {
  expect(saySpan('2027-03-13T17:00:00Z', '2027-03-13T22:30:00Z', zone)).toBe(
    'Saturday 13 March, 09:00 to 14:30',
  );
  expect(saySpan('2027-03-13T17:00:00Z', '2027-03-14T21:30:00Z', zone)).toBe(
    'Saturday 13 March to Sunday 14 March',
  );
  expect(saySpan('2027-03-13T17:00:00Z', '2027-03-13T17:00:00Z', zone)).toBe('Saturday 13 March');
});

test('weeks begin on Monday, across a year’s end too', () => {
  expect(mondayOf('2027-01-01')).toBe('2026-12-28');
  expect(mondayOf('2027-03-08')).toBe('2027-03-08');
  expect(addDays('2026-12-28', 7)).toBe('2027-01-04');
});

test('days between count the calendar, through a clock change', () => {
  expect(daysBetween('2027-03-06', '2027-10-16')).toBe(224);
  expect(daysBetween('2027-10-16', '2027-10-15')).toBe(-1);
});

test('near days are said as people say them', () => {
  expect([-3, -1, 0, 1, 9].map((days) => sayDistance(addDays('2027-03-06', days), '2027-03-06'))).toEqual([
    '3 days ago',
    'yesterday',
    'today',
    'tomorrow',
    'in 9 days',
  ]);
});
