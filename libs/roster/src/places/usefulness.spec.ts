import { firstNames } from './first-names.js';
import { usefulness } from './usefulness.js';

const plain = { isOnLaunchChain: false, hands: 3, crewMin: 2, othersWhoCan: Infinity };

describe('an open place', () => {
  it('on work that has its crew is like any other', () => {
    expect(usefulness({ skillId: null }, plain)).toEqual([]);
  });

  it('says what it is good for: the launch, a crew that is short, a skill that nobody else has', () => {
    expect(usefulness({ skillId: null }, { ...plain, isOnLaunchChain: true, hands: 1 })).toEqual([
      'The launch waits for this work.',
      'With one more it can start.',
    ]);
    expect(usefulness({ skillId: 'sawing' }, { ...plain, othersWhoCan: 0 })).toEqual([
      'It can’t start before this seat is filled.',
      'Nobody else in the crew can.',
    ]);
  });

  it('names who else comes by first names, apart where two are alike', () => {
    expect(firstNames(['Maud Sepulvida', 'Noor Tamblyn', 'Maud Alkin', 'Cher'])).toEqual([
      'Maud S.',
      'Noor',
      'Maud A.',
      'Cher',
    ]);
  });
});
