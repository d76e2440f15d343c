import { count, figure, list, sayElapsed, sayMinutes, sayRate, saySpare, sayWork } from './amounts.js';

test('hours are pencilled to the nearest quarter', () => {
  expect([20, 60, 90, 315].map(sayMinutes)).toEqual(['20 minutes', '1 hour', '1½ hours', '5¼ hours']);
  expect(figure(0.25)).toBe('¼');
  expect(figure(1234)).toBe('1,234');
  expect(sayWork(60)).toBe('1 person-hour');
  expect(sayWork(750)).toBe('12½ person-hours');
});

test('time that passes by itself is said in days and whole weeks', () => {
  expect([600, 4320, 40320].map(sayElapsed)).toEqual(['10 hours', '3 days', '4 weeks']);
});

test('rates keep two figures', () => {
  expect([3.6, 12, 0.8333].map(sayRate)).toEqual(['3.6', '12', '0.83']);
});

test('days to spare are said in words, lateness too', () => {
  expect([0, 1, 13, 21, 24, -5].map(saySpare)).toEqual([
    'nothing to spare',
    'one day to spare',
    '13 days to spare',
    'three weeks to spare',
    'about three weeks to spare',
    'five days late',
  ]);
});

test('lists and counts read as sentences do', () => {
  expect(list(['Ines'])).toBe('Ines');
  expect(list(['Ines', 'Dov', 'Suri'])).toBe('Ines, Dov and Suri');
  expect(count(1, 'turnout')).toBe('1 turnout');
  expect(count(2, 'person', 'people')).toBe('2 people');
});
