import { controlFor } from './control-for.js';

const fields = { 'estimate.count': 'how-many', likely: 'likely', rules: 'rhythm', held: 'held' };

test('a refusal leads to the control whose path is its whole field or its end', () => {
  expect(controlFor('held', fields)).toBe('held');
  expect(controlFor('input.estimate.perPersonHour.likely', fields)).toBe('likely');
});

test('a refusal deep inside a list leads to the control that made the list', () => {
  expect(controlFor('rules[2].rule', fields)).toBe('rhythm');
});

test('the longest path wins where two fit', () => {
  expect(controlFor('input.estimate.count', { ...fields, count: 'other' })).toBe('how-many');
});

test('a refusal of no field, or of one that the form does not show, leads nowhere', () => {
  expect(controlFor(null, fields)).toBeNull();
  expect(controlFor('upheld', fields)).toBeNull();
});
