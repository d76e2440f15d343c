import { costOfMissing, slotLetter, type LetterFacts } from './letter-words.js';

const facts: LetterFacts = {
  vessel: 'Signe Holvang',
  organisation: 'Corvane Harbor Old Hulls Society',
  signedBy: 'Thandeka Orrill',
  today: '2027-09-10',
  gate: { on: '2027-10-16', startTime: '07:10', endTime: '08:40', confirmBy: '2027-09-18', confirmed: null },
  released: null,
  gateOdds: 0.7,
  gateWords: '7 in 10',
  fallback: { on: '2027-11-15', extraCostCents: 640_000, words: '9 in 10' },
  likelyOn: '2027-10-23',
};

test('missing the gate costs the fallback’s extra as often as it is missed', () => {
  expect(costOfMissing(facts)).toBe(192_000);
  expect(costOfMissing({ gateOdds: 0.2, fallback: null })).toBe(0);
});

test('the letter says the slot, the odds, the cost, and the last day to the yard', () => {
  const letter = slotLetter('yard', 'confirm', facts);
  expect(letter).toContain('We confirm the lift of Signe Holvang on Saturday 16 October, 07:10 to 08:40.');
  expect(letter).toContain('7 in 10');
  expect(letter).toContain('$6,400 more');
  expect(letter).toContain('$1,920 on average');
  expect(letter).toContain('Saturday 18 September');
});

test('releasing keeps the fallback, and the insurer is told who says whether she may be lifted', () => {
  const letter = slotLetter('insurer', 'release', facts);
  expect(letter).toContain('We release');
  expect(letter).toContain('keep the one on Monday 15 November');
  expect(letter).toContain('surveyor and the yard');
  expect(slotLetter('board', 'release', { ...facts, fallback: null })).toContain('No later slot');
});

test('once the yard was told, the letter says when and what it answered, and asks for no day', () => {
  const gate = { ...facts.gate, confirmed: { on: '2027-09-11', yardSays: 'Booked, slip 14' } };
  const standing = slotLetter('yard', 'confirm', { ...facts, gate });
  expect(standing).toContain('We confirmed the lift of Signe Holvang on Saturday 16 October');
  expect(standing).toContain('on Saturday 11 September, and it stands. The yard’s answer: “Booked, slip 14”');
  expect(standing).not.toContain('the last day for it');
  const given = slotLetter('yard', 'release', { ...facts, gate });
  expect(given).toContain('We now release it, and ask to keep the one on Monday 15 November.');
});

test('a slot that was given back is told of when the next one is confirmed', () => {
  const released = { on: '2027-10-16', releasedOn: '2027-09-17', yardSays: null };
  const gate = { ...facts.gate, on: '2027-11-15' };
  const letter = slotLetter('board', 'confirm', { ...facts, gate, released, fallback: null });
  expect(letter).toContain('We confirm the lift of Signe Holvang on Monday 15 November');
  expect(letter).toContain('The lift on Saturday 16 October was released on Friday 17 September.');
});
