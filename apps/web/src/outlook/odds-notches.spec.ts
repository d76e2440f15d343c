import { addDays } from '../words/dates.js';
import { notches, oddsBy } from './odds-notches.js';

const spread = Array.from({ length: 100 }, (_, k) => addDays('2027-09-01', k));
const gates = [
  { on: '2027-10-16', name: 'the Gate' },
  { on: '2027-11-15', name: 'Fallback Gate' },
];

test('the odds by a day are the share of futures ready by then', () => {
  expect(oddsBy(spread, '2027-08-31')).toBe(0);
  expect(oddsBy(spread, '2027-09-10')).toBeCloseTo(0.1);
  expect(oddsBy(spread, '2028-01-01')).toBe(1);
  expect(oddsBy(spread.slice(0, 60), '2028-01-01')).toBeCloseTo(0.6);
});

test('the board has a row on each gate, rises with time, and stays short enough to read', () => {
  const rows = notches(spread, gates, 1000);
  expect(rows.filter(({ gate }) => gate !== null).map(({ on }) => on)).toEqual(['2027-10-16', '2027-11-15']);
  expect(rows.map(({ odds }) => odds)).toEqual(rows.map(({ odds }) => odds).toSorted((a, b) => a - b));
  expect(rows[0]?.odds).toBe(0);
  expect(rows.length).toBeLessThanOrEqual(20);
  expect(new Set(rows.map(({ on }) => on)).size).toBe(rows.length);
});

test('there is no board before a future was lived through', () => {
  expect(notches([], [], 0)).toEqual([]);
});
