import { Lately } from './lately.js';

describe('Lists drawn lately', () => {
  const list = Int32Array.from([0, 2, 1, 3]);
  const hands = Uint8Array.from([0, 1, 0, 2]);

  it('a list is new the first time and known from then on', () => {
    const lately = new Lately();
    expect(lately.had(list, null, 0)).toBe(false);
    expect(lately.had(list, null, 0)).toBe(true);
    expect(lately.had(list.slice(), null, 0)).toBe(true);
  });

  it('another order, another crewing or another direction is another list', () => {
    const lately = new Lately();
    lately.had(list, hands, 0);
    expect(lately.had(Int32Array.from([0, 1, 2, 3]), hands, 0)).toBe(false);
    expect(lately.had(list, Uint8Array.from([0, 1, 0, 1]), 0)).toBe(false);
    expect(lately.had(list, hands, 1)).toBe(false);
    expect(lately.had(list, hands, 0)).toBe(true);
  });

  it('hardly any of many different lists is taken for a known one', () => {
    const lately = new Lately();
    let known = 0;
    for (let a = 0; a < 100; a++)
      for (let b = 0; b < 100; b++) if (lately.had(Int32Array.from([a, b, 200]), null, 0)) known++;
    expect(known).toBeLessThan(5);
  });
});
