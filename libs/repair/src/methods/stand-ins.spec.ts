import { traysFor } from '../trays/set-up-trays.js';
import { startingMethods } from './hull-yard.fixture.js';
import { standInsIn } from './stand-ins.js';

const plank = 'strake-9-plank-1-starboard';
const own = {
  [`${plank}-pull-nails`]: 'pull-by-the-school',
  [`${plank}-drive-nails`]: 'drive-by-the-school',
  'vessel-launch': 'launch',
};

describe('a task of the yard’s own that stands for a step', () => {
  const standIns = standInsIn({ book: startingMethods.book, ownTasks: own });

  it('is known by element and step, whatever it is called', () => {
    expect(standIns).toEqual([
      { ref: 'pull-by-the-school', element: plank, step: 'pull-nails' },
      { ref: 'drive-by-the-school', element: plank, step: 'drive-nails' },
      { ref: 'launch', element: 'vessel', step: 'launch' },
    ]);
  });

  it('has its tray, from which what it draws goes back by the other', () => {
    const task = (ref: string) => ({ ref, count: 36, title: ref, position: 'strake 9', unit: 'nails' });
    const tasks = [task('pull-by-the-school'), task('drive-by-the-school'), task('pull-weeds')];
    expect(traysFor('org', tasks, null, new Set(), standIns)).toMatchObject([
      { elementKey: plank, pullRef: 'pull-by-the-school', driveRef: 'drive-by-the-school', inPlace: 36 },
    ]);
  });
});
