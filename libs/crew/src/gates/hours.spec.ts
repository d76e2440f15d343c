import { hours, nine, rulesOf } from './gates.fixture.js';

const shift = (from: number, length: number, isMachine = false) => ({
  startsAt: nine + hours(from),
  endsAt: nine + hours(from + length),
  isMachine,
  noiseDba: null,
});

describe('Hours and rest', () => {
  it('eight hours make a shift, and not a minute more', () => {
    expect(rulesOf('stop', { shifts: [shift(-5, 5)] })).toEqual([]);
    expect(rulesOf('stop', { shifts: [shift(-5.02, 5.02)] })).toEqual(['hours-a-shift']);
  });

  it('a meal does not end a shift, and nobody’s minute counts twice', () => {
    expect(rulesOf('stop', { shifts: [shift(4, 6)] })).toEqual(['hours-a-shift']);
    expect(rulesOf('stop', { shifts: [shift(-5, 5), shift(-5, 5)] })).toEqual([]);
  });

  it('between shifts there are ten hours', () => {
    expect(rulesOf('stop', { shifts: [shift(-11, 2)] })).toEqual(['rest']);
    expect(rulesOf('stop', { shifts: [shift(-12, 2)] })).toEqual([]);
    expect(rulesOf('stop', { shifts: [shift(12, 2)] })).toEqual(['rest']);
    expect(rulesOf('stop', { shifts: [shift(13, 2)] })).toEqual([]);
  });

  it('machines stop after six hours, other work goes on', () => {
    const job = { hazards: ['machine'] };
    expect(rulesOf('stop', { job, shifts: [shift(-3, 3, true)] })).toEqual([]);
    expect(rulesOf('stop', { job, shifts: [shift(-3.5, 3.5, true)] })).toEqual(['machine-hours']);
    expect(rulesOf('stop', { job, shifts: [shift(-3.5, 3.5)] })).toEqual([]);
    expect(rulesOf('stop', { shifts: [shift(-3.5, 3.5, true)] })).toEqual([]);
  });
});
