import { byTask, sayAnswer, sayOpen, type PlaceLike } from './roster.js';

function place(
  id: string,
  task: string,
  state: PlaceLike['state'],
  hand: string | null,
  skill: string | null = null,
): PlaceLike {
  return {
    id,
    state,
    task: { id: task },
    hand: hand === null ? null : { volunteerId: hand, name: hand },
    skill: skill === null ? null : { name: skill },
  };
}

test('a posted turnout reads by task: who holds a place, who left one, what is open', () => {
  const [frame, nails] = byTask([
    place('1', 'frame', 'POSTED', 'Ines'),
    place('2', 'nails', 'TAKEN', 'Dov'),
    place('3', 'frame', 'LEFT', 'Suri'),
    place('4', 'frame', 'POSTED', null, 'sawyer'),
  ]);
  expect([frame.filled, frame.left, frame.open].map((places) => places.map((each) => each.id))).toEqual([
    ['1'],
    ['3'],
    ['4'],
  ]);
  expect(nails.filled.map((each) => each.id)).toEqual(['2']);
});

test('gaps are said in words', () => {
  expect(sayOpen([])).toBeNull();
  expect(sayOpen([place('1', 'a', 'POSTED', null, 'sawyer')])).toBe('needs 1 sawyer');
  expect(
    sayOpen([
      place('1', 'a', 'POSTED', null, 'sawyer'),
      place('2', 'a', 'POSTED', null),
      place('3', 'a', 'POSTED', null),
    ]),
  ).toBe('needs 1 sawyer and 2 hands');
});

test('each person’s answer shows beside their name', () => {
  expect(
    (['POSTED', 'TAKEN', 'LEFT'] as const).map((state) => sayAnswer(place('1', 'a', state, 'Dov'))),
  ).toEqual(['asked', 'comes', 'can’t come']);
});
