import { readBays } from './read-bays.js';

test('bays are read as they are typed, each once, and nothing typed is no butt', () => {
  expect(readBays('22, 14 14')).toEqual([14, 22]);
  expect(readBays(' ')).toEqual([]);
});

test('what is no number of a bay is not guessed at', () => {
  expect(readBays('14 to 22')).toBeNull();
  expect(readBays('-3')).toBeNull();
});
