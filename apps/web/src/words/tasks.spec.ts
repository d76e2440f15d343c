import { sayCrew, sayEstimate, saySeat, sayStates } from './tasks.js';

test('counted work says what is left and how fast a person goes', () => {
  expect(
    sayEstimate({
      __typename: 'CountEstimate',
      unit: 'nails',
      count: 36,
      countDone: 16,
      countLeft: 20,
      perPersonHour: { low: 3, likely: 5.5, high: 8 },
    }),
  ).toBe('36 nails, 20 left. One person does about 5.5 an hour (3 to 8).');
});

test('other work is said in person-hours, waiting in time of the calendar', () => {
  expect(
    sayEstimate({ __typename: 'WorkEstimate', personMinutes: { low: 300, likely: 600, high: 900 } }),
  ).toBe('About 10 person-hours (5 to 15 person-hours).');
  expect(
    sayEstimate({ __typename: 'TimeEstimate', minutes: { low: 40320, likely: 40320, high: 40320 } }),
  ).toBe('Takes 4 weeks by itself.');
  expect(sayEstimate(null)).toBe('No work of its own: it waits for a say-so or a date.');
});

test('a crew is said with what works best', () => {
  expect(sayCrew(2, 3, 4)).toBe('2 to 4 people, best with 3.');
  expect(sayCrew(2, 2, 2)).toBe('2 people, no more and no fewer.');
  expect(saySeat({ count: 1, skill: { name: 'Sawing' }, levelWords: 'works alone' })).toBe(
    '1 person for sawing: works alone, or better',
  );
});

test('how a place on the hull stands is said in the order in which work goes', () => {
  expect(sayStates(['PASSED', 'WAITING', 'SHOWN', 'WAITING'])).toBe(
    '2 waiting for other work, 1 shown and 1 passed',
  );
});
