import { boardFor, heightOf, monthNotches, spread, weekNotches } from './tide-marks.js';

const board = boardFor('2027-03-06', ['2027-10-16', '2027-11-15', '2027-03-06']);

test('the board reaches below the haul-out and above the last gate', () => {
  expect(board).toEqual({ from: '2027-02-27', to: '2027-11-29' });
  expect(heightOf(board, '2027-03-06')).toBeGreaterThan(0);
  expect(heightOf(board, '2027-11-15')).toBeLessThan(1);
});

test('a later day stands higher, and a day beyond the board at its end', () => {
  expect(heightOf(board, '2027-10-16')).toBeGreaterThan(heightOf(board, '2027-09-25'));
  expect(heightOf(board, '2029-01-01')).toBe(1);
});

test('every month has its notch, also over a year’s end', () => {
  expect(monthNotches(board).map((notch) => notch.name)).toEqual([
    'March',
    'April',
    'May',
    'June',
    'July',
    'August',
    'September',
    'October',
    'November',
  ]);
  expect(monthNotches({ from: '2027-12-20', to: '2028-01-10' })).toEqual([
    { on: '2028-01-01', name: 'January' },
  ]);
  expect(weekNotches({ from: '2027-03-01', to: '2027-03-20' })).toEqual(['2027-03-08', '2027-03-15']);
});

test('labels keep their order and their room when their marks stand close', () => {
  const room = [60, 60, 30];
  const places = spread([20, 25, 300], room, 400);
  expect(places[0]).toBe(20);
  expect(places[1]).toBe(80);
  expect(places[2]).toBe(300);
});

test('labels pushed past the foot are moved up again', () => {
  expect(spread([350, 360, 390], [60, 60, 30], 400)).toEqual([250, 310, 370]);
});
