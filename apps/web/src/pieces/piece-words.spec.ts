import { answersTo } from './piece-words.js';

describe('a piece is found', () => {
  const piece = {
    code: 'K7M-4TX',
    name: 'Strake 9, forward plank',
    place: 'Starboard, strake 9',
    fate: 'REFIT' as const,
    keptAt: 'rack 3',
  };

  it('by its code with or without the hyphen, its name, its rack and its fate', () => {
    for (const sought of ['k7m-4tx', 'k7m4', 'strake 9 rack', 'goes back', ''])
      expect([sought, answersTo(piece, sought)]).toEqual([sought, true]);
  });

  it('and not by a word that stands nowhere on it', () => {
    expect(answersTo(piece, 'strake 10')).toBe(false);
    expect(answersTo({ ...piece, keptAt: null }, 'rack')).toBe(false);
  });
});
