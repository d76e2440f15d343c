import { runs, sayCourse, sayOpen, stateIn, widestWeek, workSpan } from './at-week.js';
import type { ShellSide, Standing } from './hull.question.js';

const zone = 'America/Los_Angeles';
const standing: Standing = {
  state: 'OPEN',
  element: { id: 'element_1', name: 'Strake 9 plank 2 starboard' },
  changes: [
    { at: '2027-04-17T16:00:00.000Z', state: 'OPENING' },
    { at: '2027-04-18T21:00:00.000Z', state: 'OPEN' },
    { at: '2027-07-10T16:00:00.000Z', state: 'CLOSING' },
    { at: '2027-07-11T21:00:00.000Z', state: 'CLOSED' },
  ],
};
const plank = { key: 'p', name: 'p', strake: 9, left: 1000, right: 3000, low: 0, high: 200 };
const side: ShellSide = {
  side: 'STARBOARD',
  length: 20_000,
  height: 3000,
  planks: [
    { ...plank, standing },
    { ...plank, key: 'q', strake: 1, standing: null },
  ],
  frames: [{ key: 'f', name: 'f', number: 12, x: 2000, head: 2500, standing }],
  ceiling: [],
};

describe('the shell map in a week', () => {
  it('shows what is really so now, and what a week’s end finds by record and plan', () => {
    expect(stateIn(standing, null, zone)).toBe('OPEN');
    expect(stateIn(standing, '2027-04-05', zone)).toBe('STANDING');
    expect(stateIn(standing, '2027-04-12', zone)).toBe('OPEN');
    expect(stateIn(standing, '2027-07-05', zone)).toBe('CLOSED');
    expect(stateIn(null, '2027-07-05', zone)).toBe('STANDING');
  });

  it('is said in a sentence', () => {
    expect(sayOpen(side, '2027-04-12', zone)).toBe('frame 12 is out and 1 plank is off (strake 9)');
    expect(sayOpen(side, '2027-07-05', zone)).toBe('nothing is open');
    expect(runs([9, 10, 11, 14, 12, 13])).toBe('9 to 14');
    expect(runs([12, 15, 18])).toBe('12, 15 and 18');
  });

  it('knows when she lies open furthest, and where the work is', () => {
    expect(widestWeek([side], ['2027-04-05', '2027-04-12', '2027-04-19'], zone)).toBe('2027-04-12');
    expect(widestWeek([side], ['2027-04-05'], zone)).toBeNull();
    expect(workSpan(side)).toEqual({ from: 400, to: 3600 });
  });

  it('tells of a piece what it is, since when, and what comes', () => {
    expect(sayCourse(standing, '2027-05-01', zone)).toBe(
      'open since Sunday 18 April; by the plan closing from Saturday 10 July and closed from Sunday 11 July',
    );
    expect(sayCourse(null, '2027-05-01', zone)).toBe('standing; no work is planned on it');
  });
});
