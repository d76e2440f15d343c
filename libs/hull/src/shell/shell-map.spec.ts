import { inches } from '../measure.js';
import { buildHull } from '../model/build-hull.js';
import { SCHOONER } from '../model/halibut-schooner.fixture.js';
import { elementStateAt, shellMap } from './shell-map.js';

const hull = buildHull(SCHOONER);

describe('the shell unrolled flat', () => {
  const map = shellMap(hull, 'starboard');

  it('is as long as her frames and as high as her strakes', () => {
    expect(map.length).toBeCloseTo(inches(43 * 20));
    expect(map.height).toBeCloseTo(inches(19 * 8));
    expect(map.frames).toHaveLength(44);
    expect(map.frames[0].head).toBeCloseTo(inches(16 * 8));
  });

  it('is covered by planks without gap or overlap', () => {
    const area = map.planks.reduce(
      (sum, { left, right, low, high }) => sum + (right - left) * (high - low),
      0,
    );
    expect(area).toBeCloseTo(map.length * map.height, 3);
    for (const strake of [1, 9, 19]) {
      const run = map.planks.filter((plank) => plank.strake === strake).sort((a, b) => a.left - b.left);
      run.slice(1).forEach((plank, index) => {
        expect(plank.left).toBe(run[index].right);
      });
    }
  });
});

describe('what an element is', () => {
  const times = { opener: { start: 10, end: 20 }, closer: { start: 50, end: 60 } };

  it('goes from standing to closed as its tasks go', () => {
    expect([0, 10, 20, 50, 60].map((at) => elementStateAt(times, at))).toEqual([
      'standing',
      'opening',
      'open',
      'closing',
      'closed',
    ]);
  });

  it('is standing where nothing opens it, and open while its closing is not yet planned', () => {
    expect(elementStateAt(null, 99)).toBe('standing');
    expect(elementStateAt({ ...times, closer: { start: null, end: null } }, 99)).toBe('open');
  });
});
