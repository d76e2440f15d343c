import { changesAsked, type Listed } from './changes-asked.js';

const late = (days: number): Listed => ({
  change: { kind: 'LATE', taskIds: ['task-1'], days },
  words: `${days} days`,
});

test('the change that is filled in goes with those that are listed', () => {
  expect(changesAsked([], late(7), null)).toEqual([late(7)]);
  expect(changesAsked([late(7)], late(14), late(7))).toEqual([late(7), late(14)]);
});

test('what was put on the list is not asked twice, nor after it was left out', () => {
  expect(changesAsked([late(7)], late(7), late(7))).toEqual([late(7)]);
  expect(changesAsked([late(7)], late(14), late(14))).toEqual([late(7)]);
  expect(changesAsked([], late(14), late(14))).toEqual([late(14)]);
});
