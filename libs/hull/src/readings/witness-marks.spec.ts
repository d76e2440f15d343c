import { inches, inchFraction } from '../measure.js';
import { driftOf, holdOf, type Reading } from './witness-marks.js';

const BREADTH = 'breadth at frame 15';
const at = (
  day: number,
  moved: number,
  reader = 'Odalys Brenn',
  when: Reading['when'] = 'later',
): Reading => ({
  day,
  reader,
  value: inches(198) + inches(moved),
  when,
});
const twice = (day: number, moved: number, when: Reading['when'] = 'later'): Reading[] =>
  ['Odalys Brenn', 'Emeric Holloran'].flatMap((reader) => [
    at(day, moved, reader, when),
    at(day, moved, reader, when),
  ]);
const base = twice(0, 0, 'after blocking');

describe('a witness mark', () => {
  it('is measured from the readings after blocking, not from those afloat', () => {
    expect(driftOf(BREADTH, [at(0, 0, 'Odalys Brenn', 'afloat')]).kind).toBe('no baseline');
    expect(driftOf(BREADTH, [at(-5, 1, 'Odalys Brenn', 'afloat'), ...base, ...twice(7, 0)]).kind).toBe(
      'steady',
    );
  });

  it('has its baseline only from two readers, each twice', () => {
    const blocked = (reader: string) => at(0, 0, reader, 'after blocking');
    const [odalys, emeric] = [blocked('Odalys Brenn'), blocked('Emeric Holloran')];
    for (const few of [[odalys], [odalys, odalys], [odalys, emeric], [odalys, odalys, emeric]])
      expect(driftOf(BREADTH, [...few, ...twice(7, 0)])).toEqual({
        kind: 'no baseline',
        says: 'breadth at frame 15 has not been read after blocking by two readers, each twice: nothing is opened before',
      });
    const same = blocked('odalys  brenn ');
    expect(driftOf(BREADTH, [odalys, odalys, same, same]).kind).toBe('no baseline');
    expect(driftOf(BREADTH, [odalys, emeric, odalys, emeric]).kind).toBe('steady');
  });

  it('holds by what was entered when it was entered: neither a baseline nor a reading after it undoes that', () => {
    const held = 'breadth at frame 15 has moved 1/4 in: every opening task is held';
    const entered = (readings: Reading[], sinceLifted = true) =>
      readings.map((one) => ({ ...one, sinceLifted }));
    expect(holdOf(BREADTH, entered([...base, ...twice(7, 3 / 16)]))).toBeNull();
    const hold = [...base, at(7, 1 / 4)];
    expect(holdOf(BREADTH, entered(hold))).toBe(held);
    expect(holdOf(BREADTH, entered([...hold, ...twice(7, 1 / 4, 'after blocking'), ...twice(8, 0)]))).toBe(
      held,
    );
    expect(holdOf(BREADTH, entered([...hold, ...twice(0, 1 / 4, 'after blocking')]))).toBe(held);
    const [once] = base;
    expect(holdOf(BREADTH, entered([once, at(7, 1 / 4)]))).toBe(held);
    expect(holdOf(BREADTH, entered([at(7, 1 / 4), ...base]))).toBe(held);
    expect(holdOf(BREADTH, entered(hold, false))).toBeNull();
    expect(holdOf(BREADTH, [...entered(hold, false), ...entered([at(8, 1 / 4)])])).toBe(held);
  });

  it('warns from 1/8 in, once two readers have read it twice (common practice; the readers from memory)', () => {
    expect(driftOf(BREADTH, [...base, at(7, 3 / 16)]).kind).toBe('read again');
    const warned = driftOf(BREADTH, [...base, ...twice(7, 3 / 16)]);
    expect(warned).toMatchObject({ kind: 'warn' });
    expect(warned.says).toBe(
      'breadth at frame 15 has moved 3/16 in: look at shores and braces before more is opened',
    );
    expect(driftOf(BREADTH, [...base, ...twice(7, 1 / 16)]).kind).toBe('steady');
  });

  it('holds every opening from 1/4 in, on a single reading too (common practice)', () => {
    expect(driftOf(BREADTH, [...base, at(7, -1 / 4)]).kind).toBe('hold');
  });

  it('is spoken of in fractions of an inch, as the rule shows them', () => {
    const lengths = [0, 1 / 8, 3 / 16, -1 / 4, 1, 1.25, 31.99 / 32].map((length) =>
      inchFraction(inches(length)),
    );
    expect(lengths).toEqual(['0', '1/8', '3/16', '1/4', '1', '1 1/4', '1']);
  });

  it('shows the trend by the week', () => {
    const state = driftOf(BREADTH, [...base, ...twice(7, 1 / 32), ...twice(14, 1 / 16)]);
    if (state.kind === 'no baseline') throw new Error(state.says);
    expect(state.perWeek).toBeCloseTo(inches(1 / 32), 6);
  });
});
