import { sayWhoIsLeft } from './lapsing-words.js';

const place = (on: string, isOnly = true, othersLapsed = false) => ({ on, isOnly, othersLapsed });

describe('what is said of a turnout whose cards lapse', () => {
  it('calls one the only one, each day once', () => {
    expect(sayWhoIsLeft('FIRST_AID', [place('May 8'), place('May 8'), place('May 15')])).toEqual([
      'The only first-aider on May 8 and May 15: nobody else who is down there has such a card.',
    ]);
    expect(sayWhoIsLeft('HOT_WORK_WATCH', [place('May 8')])[0]).toMatch(
      /^The only one with the card for the fire watch on May 8:/u,
    );
  });

  it('calls nobody the only one where the cards of several have lapsed', () => {
    const [words, ...more] = sayWhoIsLeft('FIRST_AID', [place('May 8', true, true)]);
    expect(more).toEqual([]);
    expect(words).toMatch(/^Nobody is left on May 8 whose card counts for first aid:/u);
    expect(sayWhoIsLeft('FIRST_AID', [place('May 8', true, true), place('May 15')])).toHaveLength(2);
  });

  it('says nothing where the card of another counts', () => {
    expect(sayWhoIsLeft('FIRST_AID', [place('May 8', false)])).toEqual([]);
  });
});
