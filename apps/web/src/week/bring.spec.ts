import { toBring } from './bring.js';

describe('What a slip says to bring', () => {
  it('is the same for all work, and more for some, each once', () => {
    expect(toBring([])).toEqual([
      'stout shoes',
      'clothes that may get dirty or torn',
      'food and water for the day',
    ]);
    expect(toBring(['LEAD', 'LEAD', 'STRAIN'])).toHaveLength(4);
  });
});
