import { byPosition, matches, type Listed } from './by-position.js';

function task(title: string, position: string, state: Listed['state'] = 'WAITING'): Listed {
  return { id: title, title, position, state };
}

test('work is gathered by place on the hull, frame 9 before frame 10', () => {
  const gathered = byPosition([task('draw', 'frame 10'), task('saw', 'frame 9'), task('set', 'frame 10')]);
  expect(gathered.map((each) => each.position)).toEqual(['frame 9', 'frame 10']);
  expect(gathered[1]?.tasks.map((each) => each.title)).toEqual(['draw', 'set']);
});

test('a search finds work by all its words, in any order, in title, place and state', () => {
  const draw = task('Draw futtocks', 'Frame 12, starboard', 'CLEAR');
  expect(matches(draw, '12 futtocks', '')).toBe(true);
  expect(matches(draw, 'clear 12', '')).toBe(true);
  expect(matches(draw, 'futtocks 13', '')).toBe(false);
  expect(matches(draw, '', 'PASSED')).toBe(false);
});
