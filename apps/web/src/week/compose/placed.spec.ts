import { marked, placedIn, withMarksOf } from './placed.js';

const week = {
  turnouts: [
    {
      work: [
        {
          places: [
            { key: 'saw', fixed: false, hand: { volunteerId: 'anselm' } },
            { key: 'helper', fixed: false, hand: null },
            { key: null, fixed: false, hand: { volunteerId: 'ysolde' } },
          ],
        },
      ],
    },
  ],
};

test('who is on which place is told without open places and without second hands', () => {
  expect(placedIn(week)).toEqual([{ key: 'saw', volunteerId: 'anselm', fixed: false }]);
});

test('a mark is on its own place and leaves the week before as it was', () => {
  expect(placedIn(marked(week, 'saw', true))).toEqual([{ key: 'saw', volunteerId: 'anselm', fixed: true }]);
  expect(placedIn(marked(week, 'helper', true))).toEqual(placedIn(week));
  expect(placedIn(week)[0].fixed).toBe(false);
});

test('taking a change back keeps the marks that were made since, but on whom it had put there', () => {
  const put = {
    turnouts: [
      {
        work: [
          {
            places: [
              { key: 'saw', fixed: true, hand: { volunteerId: 'anselm' } },
              { key: 'helper', fixed: true, hand: { volunteerId: 'perrin' } },
            ],
          },
        ],
      },
    ],
  };
  expect(placedIn(withMarksOf(week, put))).toEqual([{ key: 'saw', volunteerId: 'anselm', fixed: true }]);
  expect(placedIn(withMarksOf(put, week))).toEqual([
    { key: 'saw', volunteerId: 'anselm', fixed: false },
    { key: 'helper', volunteerId: 'perrin', fixed: true },
  ]);
});
