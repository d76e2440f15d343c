import { letterOf, readNumbers } from './paper.js';

describe('the sheet on the wall, entered again', () => {
  it('is read as it is written: single numbers, runs, commas and blanks', () => {
    expect(readNumbers('1-3 7, 9;9', 12)).toEqual({ numbers: [1, 2, 3, 7, 9], wrong: [] });
    expect(readNumbers('', 12)).toEqual({ numbers: [], wrong: [] });
  });

  it('names what is no number of the sheet', () => {
    expect(readNumbers('0 4-2 13 x 5', 12)).toEqual({ numbers: [5], wrong: ['0', '4-2', '13', 'x'] });
  });

  it('has a letter for each piece of work', () => {
    expect([0, 25, 26, 27].map(letterOf)).toEqual(['A', 'Z', 'AA', 'AB']);
  });
});
