import { gatherAlike } from './alike.js';

function open(id: string, turnout: string, task: string, skill: string | null = null) {
  return {
    place: { id, task: { id: task }, turnout: { id: turnout }, skill: skill === null ? null : { id: skill } },
  };
}

test('places that differ in nothing are shown once, in the order in which they came', () => {
  const gathered = gatherAlike([
    open('1', 'saturday', 'nails'),
    open('2', 'saturday', 'nails', 'puller'),
    open('3', 'saturday', 'nails'),
    open('4', 'sunday', 'nails'),
  ]);
  expect(gathered.map((group) => group.map((each) => each.place.id))).toEqual([['1', '3'], ['2'], ['4']]);
});
