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

test('an empty seat and too few hands are needs, any other open place is room', () => {
  const gaps = (places: PlaceLike[], crewMin: number) => sayOpen(byTask(places)[0], crewMin);
  expect(gaps([place('1', 'a', 'TAKEN', 'Dov')], 1)).toEqual([]);
  expect(gaps([place('1', 'a', 'POSTED', null, 'Sawing'), place('2', 'a', 'POSTED', 'Dov')], 2)).toEqual([
    'needs 1 for sawing',
  ]);
  expect(
    gaps(
      [place('1', 'a', 'POSTED', 'Dov'), ...['2', '3', '4'].map((id) => place(id, 'a', 'POSTED', null))],
      2,
    ),
  ).toEqual(['needs 1 more hand', 'room for 2 more hands']);
});

test('each person’s answer shows beside their name', () => {
  expect(
    (['POSTED', 'TAKEN', 'LEFT'] as const).map((state) => sayAnswer(place('1', 'a', state, 'Dov'))),
  ).toEqual(['asked', 'comes', 'can’t come']);
});
