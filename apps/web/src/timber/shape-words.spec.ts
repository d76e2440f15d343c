import { readSections, writeSections } from './shape-words.js';

describe('a half model’s sections', () => {
  it('are read line by line, height and breadth from the rabbet up, and written back the same', () => {
    const typed = '0/0 12/20.5 30/41\n0/0 14/22 31/44';
    expect(readSections(typed)[0]).toEqual([
      { height: 0, breadth: 0 },
      { height: 12, breadth: 20.5 },
      { height: 30, breadth: 41 },
    ]);
    expect(writeSections(readSections(`${typed}\n\n`))).toBe(typed);
  });

  it('keep what is no number, so that the refusal can name its place', () => {
    expect(readSections('0/0 12/x')).toEqual([
      [
        { height: 0, breadth: 0 },
        { height: 12, breadth: 'x' },
      ],
    ]);
  });
});
