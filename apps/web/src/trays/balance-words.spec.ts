import { sayBalance, sayTray } from './balance-words.js';

const nothing = {
  inPlace: 36,
  stillIn: 36,
  drawn: 0,
  pulledThrough: 0,
  cut: 0,
  stubsWaiting: 0,
  received: 0,
  lent: 0,
  notGraded: 0,
  sound: 0,
  scrapped: 0,
  lost: 0,
  bought: 0,
  driven: 0,
  inTray: 0,
};

describe('a tray in words', () => {
  it('says nothing of what has not happened', () => {
    expect(sayBalance(nothing)).toEqual(['36 fastenings in place: 36 still in.']);
    expect(sayTray(nothing, 36)).toBe('all 36 still in');
  });

  it('adds up: out of the wood, graded, back into it', () => {
    const balance = {
      ...nothing,
      ...{ stillIn: 22, drawn: 11, pulledThrough: 1, cut: 2 },
      ...{ sound: 8, scrapped: 2, notGraded: 2, bought: 2, driven: 4, inTray: 6 },
    };
    expect(sayBalance(balance)).toEqual([
      '36 fastenings in place: 22 still in, 11 drawn, 1 pulled through and 2 heads off.',
      '12 saved from the wood: 8 sound, 2 scrap and 2 to grade.',
      '10 to drive, 8 of them saved: 4 driven and 6 in the tray.',
    ]);
    expect(sayTray(balance, 36)).toBe('22 still in, 2 to grade, 6 in the tray and 4 driven');
  });
});
