import { afterWorking, standings, type BoardLink, type BoardTask } from './task-board.js';
import type { Progress } from './progress.js';

const at = (text: string) => Date.parse(`2027-${text}:00Z`);
/** Saturdays and Sundays, nine to two. */
const turnouts = ['04-03', '04-04', '04-10', '04-11'].map((on) => ({
  startsAt: at(`${on}T09:00`),
  endsAt: at(`${on}T14:00`),
}));
const since = at('03-06T00:00');

const progress = (over: Partial<Progress> = {}): Progress => ({
  stage: 'not begun',
  countDone: 0,
  countLeft: null,
  minutesDone: 0,
  workLeft: null,
  begunAt: null,
  doneAt: null,
  ...over,
});
const shownAt = (doneAt: number): Progress =>
  progress({ stage: 'shown', begunAt: doneAt - 3_600_000, doneAt });
const task = (id: string, over: Partial<BoardTask> = {}): BoardTask => ({
  id,
  kind: 'work',
  elapsedMinutes: null,
  notBefore: null,
  isHeld: false,
  isDropped: false,
  isTaken: false,
  progress: progress(),
  ...over,
});
const link = (beforeId: string, afterId: string, over: Partial<BoardLink> = {}): BoardLink => ({
  beforeId,
  afterId,
  relation: 'finish-to-start',
  lagMinutes: 0,
  lagKind: 'working',
  ...over,
});
const states = (tasks: BoardTask[], links: BoardLink[], now: number) =>
  Object.fromEntries(
    [...standings(tasks, links, turnouts, { now, since })].map(([id, standing]) => [id, standing.state]),
  );

describe('How a task stands', () => {
  const now = at('04-04T10:00');

  it('it waits until what stands before it is shown', () => {
    const chain = [link('draw', 'punch')];
    expect(states([task('draw'), task('punch')], chain, now)).toEqual({ draw: 'clear', punch: 'waiting' });
    const drawn = task('draw', { progress: shownAt(at('04-03T12:00')) });
    expect(states([drawn, task('punch')], chain, now)).toEqual({ draw: 'shown', punch: 'clear' });
  });

  it('a hold keeps what follows waiting until it is passed', () => {
    const look = (stage: Progress['stage']) =>
      task('surveyor looks', { kind: 'hold', progress: progress({ stage, doneAt: at('04-03T12:00') }) });
    const chain = [link('surveyor looks', 'close')];
    expect(states([look('shown'), task('close')], chain, now)['close']).toBe('waiting');
    expect(states([look('passed'), task('close')], chain, now)['close']).toBe('clear');
  });

  it('somebody with a place makes it taken, the first tally under way', () => {
    expect(states([task('punch', { isTaken: true })], [], now)).toEqual({ punch: 'taken' });
    const begun = task('punch', { isTaken: true, progress: progress({ stage: 'begun' }) });
    expect(states([begun], [], now)).toEqual({ punch: 'under-way' });
  });

  it('held and dropped are said before anything else, and a dropped task keeps nobody waiting', () => {
    const tasks = [task('draw', { isDropped: true }), task('punch', { isHeld: true }), task('plug')];
    expect(states(tasks, [link('draw', 'plug')], now)).toEqual({
      draw: 'dropped',
      punch: 'held',
      plug: 'clear',
    });
  });

  it('one turnout after bungs have begun counts the yard’s hours, not the nights', () => {
    const bungs = task('bungs', { progress: progress({ stage: 'begun', begunAt: at('04-03T09:00') }) });
    const chain = [link('bungs', 'nails', { relation: 'start-to-start', lagMinutes: 300 })];
    expect(states([bungs, task('nails')], chain, at('04-03T13:59'))['nails']).toBe('waiting');
    expect(states([bungs, task('nails')], chain, at('04-03T14:00'))['nails']).toBe('clear');
  });

  it('glue sets by itself, day and night, and then is done', () => {
    const glued = task('glue up', { progress: shownAt(at('04-03T14:00')) });
    const set = task('glue sets', { kind: 'elapsed', elapsedMinutes: 24 * 60 });
    const chain = [link('glue up', 'glue sets'), link('glue sets', 'pare')];
    const tasks = [glued, set, task('pare')];
    expect(states(tasks, chain, at('04-03T20:00'))).toMatchObject({
      'glue sets': 'under-way',
      pare: 'waiting',
    });
    expect(states(tasks, chain, at('04-04T14:00'))).toMatchObject({ 'glue sets': 'passed', pare: 'clear' });
  });

  it('a delivery that waits for nothing runs from the haul-out', () => {
    const stock = task('stock arrives', { kind: 'elapsed', elapsedMinutes: 28 * 1440 });
    expect(states([stock], [], at('04-02T23:00'))).toEqual({ 'stock arrives': 'under-way' });
    expect(states([stock], [], at('04-03T00:00'))).toEqual({ 'stock arrives': 'passed' });
  });

  it('a link to the end keeps nobody from beginning', () => {
    const chain = [link('hang', 'drive nails', { relation: 'finish-to-finish', lagMinutes: 300 })];
    expect(states([task('hang'), task('drive nails')], chain, now)['drive nails']).toBe('clear');
  });

  it('not before a day means not before it', () => {
    const later = task('caulk', { notBefore: at('04-05T00:00') });
    expect(states([later], [], at('04-04T23:59'))).toEqual({ caulk: 'waiting' });
    expect(states([later], [], at('04-05T00:00'))).toEqual({ caulk: 'clear' });
  });

  it('two that may overlap by a turnout wait only until the first has begun', () => {
    const chain = [link('fair', 'caulk', { lagMinutes: -300 })];
    expect(states([task('fair'), task('caulk')], chain, now)['caulk']).toBe('waiting');
    const begun = task('fair', { progress: progress({ stage: 'begun', begunAt: at('04-03T09:00') }) });
    expect(states([begun, task('caulk')], chain, now)['caulk']).toBe('clear');
  });

  it('a chain of twenty thousand tasks is no trouble, whichever way it is handed in', () => {
    const ids = Array.from({ length: 20_000 }, (_, at) => `t${at}`);
    const chain = ids.slice(1).map((id, at) => link(ids[at] ?? '', id));
    const backwards = ids.map((id) => task(id)).reverse();
    const found = states(backwards, chain, now);
    expect([found['t0'], found['t1'], found['t19999']]).toEqual(['clear', 'waiting', 'waiting']);
  });

  it('work that was sent back keeps what follows waiting', () => {
    const redo = task('plug', { progress: progress({ stage: 'redo', begunAt: at('04-03T09:00') }) });
    expect(states([redo, task('set')], [link('plug', 'set')], now)).toEqual({ plug: 'redo', set: 'waiting' });
  });
});

describe('Working time', () => {
  it('runs inside turnouts only, and ends where they end', () => {
    expect(afterWorking(at('04-03T12:00'), 120, turnouts)).toBe(at('04-03T14:00'));
    expect(afterWorking(at('04-03T12:00'), 121, turnouts)).toBe(at('04-04T09:01'));
    expect(afterWorking(at('04-01T00:00'), 600, turnouts)).toBe(at('04-04T14:00'));
    expect(afterWorking(at('04-11T13:00'), 61, turnouts)).toBeNull();
    expect(afterWorking(at('04-05T00:00'), 0, turnouts)).toBe(at('04-05T00:00'));
  });
});
