import { hangsOnOne } from './crews.js';

/** One seat for a sawyer, so many people at least. */
const sawing = (least: number) => [{ seats: [1], least }];
const sawyer = (chance: number) => ({ chance, seated: [{ work: 0, seats: [0] }], standsIn: [] });
const hand = (chance: number) => ({ chance, seated: [{ work: 0, seats: [] }], standsIn: [] });

describe('work that hangs on one person', () => {
  it('is what nobody else may do', () => {
    expect(hangsOnOne({ works: sawing(1), people: [sawyer(0.9)] }, 0)).toBe(true);
  });

  it('is also where others may come whom it does not need', () => {
    expect(hangsOnOne({ works: sawing(1), people: [sawyer(0.9), hand(0.8), hand(0.7)] }, 0)).toBe(true);
  });

  it('is also where all others are sure to come', () => {
    expect(hangsOnOne({ works: sawing(2), people: [sawyer(0.9), hand(1)] }, 0)).toBe(true);
  });

  it('is not what needs two who may stay away, or what either of two could do', () => {
    expect(hangsOnOne({ works: sawing(2), people: [sawyer(0.9), hand(0.8)] }, 0)).toBe(false);
    expect(hangsOnOne({ works: sawing(1), people: [sawyer(0.9), sawyer(0.8)] }, 0)).toBe(false);
  });
});
