import fc from 'fast-check';
import { HullRefusal } from '../refusal.js';
import { holeFate, lotBalance, trayBalance, type TrayBalance, type TrayEntry } from './balance.js';
import { careChoices } from './care.js';
import { buyBy, forecastShortfall } from './forecast.js';

const kinds = [
  'drawn',
  'cut',
  'punched',
  'bored out',
  'scrapped',
  'sound',
  'bought',
  'driven',
  'pulled through',
] as const;

const entry = fc.record({ kind: fc.constantFrom(...kinds), count: fc.integer({ min: 1, max: 12 }) });

describe('a tray', () => {
  it('accounts for every fastening that was in place', () => {
    const balance = trayBalance(36, [
      { kind: 'drawn', count: 28 },
      { kind: 'pulled through', count: 2 },
      { kind: 'cut', count: 5 },
      { kind: 'punched', count: 3 },
      { kind: 'left in place', count: 1, reason: 'under the clamp, out of reach' },
      { kind: 'sound', count: 20 },
      { kind: 'scrapped', count: 6 },
      { kind: 'bought', count: 10 },
      { kind: 'driven', count: 24 },
    ]);
    expect(balance).toMatchObject({ stillIn: 1, stubsWaiting: 1, notGraded: 4, inTray: 6, plankRepairs: 2 });
  });

  it('refuses to give more than it has, and says how many there are', () => {
    const overdrawn = (): TrayBalance => trayBalance(36, [{ kind: 'drawn', count: 37 }]);
    expect(overdrawn).toThrow('1 more than there are (still in place); at most 36');
    expect(() => trayBalance(36, [{ kind: 'driven', count: 1 }])).toThrow('in the tray');
    expect(() => trayBalance(36, [{ kind: 'left in place', count: 1, reason: '' }])).toThrow(HullRefusal);
  });

  it('lends to another tray only what it has, so that a mix-up shows in both', () => {
    const short = trayBalance(36, [
      { kind: 'drawn', count: 36 },
      { kind: 'lent', count: 9, tray: 'strake 11 plank 3' },
    ]);
    const over = trayBalance(36, [
      { kind: 'drawn', count: 27 },
      { kind: 'received', count: 9, tray: 'strake 11 plank 2' },
    ]);
    expect([short.notGraded, over.notGraded, lotBalance([short, over]).notGraded]).toEqual([27, 36, 63]);
  });

  it('says which nails were lost, and asks what is known of it', () => {
    const entries: TrayEntry[] = [{ kind: 'drawn', count: 36 }];
    const lost = trayBalance(36, [
      ...entries,
      { kind: 'lost', count: 9, reason: 'tray tipped over the side' },
    ]);
    expect(lost).toMatchObject({ lost: 9, notGraded: 27 });
    expect(() => trayBalance(36, [...entries, { kind: 'lost', count: 9, reason: ' ' }])).toThrow(
      'lost without a word how',
    );
    // What is lost says nothing of how many are scrap.
    expect(forecastShortfall(lost, 36).scrapShare).toBeCloseTo(0.35, 6);
  });

  it('never goes negative, whatever is entered and refused', () => {
    fc.assert(
      fc.property(fc.array(entry, { maxLength: 40 }), (wishes) => {
        const taken: TrayEntry[] = [];
        for (const wish of wishes) {
          try {
            trayBalance(60, [...taken, wish]);
            taken.push(wish);
          } catch (refusal) {
            expect(refusal).toBeInstanceOf(HullRefusal);
          }
        }
        const balance = trayBalance(60, taken);
        for (const count of Object.values(balance)) expect(count).toBeGreaterThanOrEqual(0);
        expect(balance.inPlace).toBe(balance.stillIn + balance.drawn + balance.pulledThrough + balance.cut);
        expect(balance.sound + balance.bought).toBe(balance.driven + balance.inTray);
      }),
    );
  });
});

describe('a saved nail and its hole', () => {
  it('sound and sound leave no new hole in kept timber', () => {
    expect(holeFate(true, true, false)).toMatchObject({ hole: 'its own', newHolesInKept: 0 });
    expect(holeFate(false, true, false)).toMatchObject({ nail: 'another', newHolesInKept: 0 });
  });

  it('an unsound hole is plugged and bored anew, and new wood gets new holes anyway', () => {
    expect(holeFate(true, false, false).hole).toBe('plugged and bored anew');
    expect(holeFate(true, true, true).hole).toBe('new, in new wood');
  });
});

describe('nails that will be wanting', () => {
  const fresh = trayBalance(432, []);
  const graded = (sound: number, scrapped: number): TrayBalance =>
    trayBalance(432, [
      { kind: 'drawn', count: sound + scrapped },
      { kind: 'sound', count: sound },
      { kind: 'scrapped', count: scrapped },
    ]);

  it('are forecast from a starting scrap share between 20 and 50 in 100 (from memory)', () => {
    const forecast = forecastShortfall(fresh, 432);
    expect(forecast.scrapShare).toBeGreaterThan(0.2);
    expect(forecast.scrapShare).toBeLessThan(0.5);
    expect(forecast.nineInTen).toBeGreaterThan(forecast.likely);
  });

  it('follow what is graded: a tenth scrap of 200 draws the forecast to a tenth', () => {
    const forecast = forecastShortfall(graded(180, 20), 432);
    expect(forecast.scrapShare).toBeCloseTo(23.5 / 210, 6);
    expect(forecast.likely).toBeGreaterThan(35);
    expect(forecast.likely).toBeLessThan(60);
  });

  it('are exactly those scrapped once all are graded', () => {
    expect(forecastShortfall(graded(390, 42), 432)).toMatchObject({ likely: 42, nineInTen: 42 });
  });

  it('give half and nine tenths of cases as a count by brute force does', () => {
    // Twelve left to grade, five sound and five scrap seen: the chance of k scrap by products, k drawn first.
    const lot = trayBalance(22, [
      { kind: 'drawn', count: 10 },
      { kind: 'sound', count: 5 },
      { kind: 'scrapped', count: 5 },
    ]);
    const [a, b, n] = [8.5, 11.5, 12];
    const choose = (k: number): number =>
      Array.from({ length: k }).reduce<number>((c, _, i) => (c * (n - i)) / (i + 1), 1);
    const chance = (k: number): number => {
      let product = choose(k);
      for (let i = 0; i < k; i += 1) product *= (a + i) / (a + b + i);
      for (let i = 0; i < n - k; i += 1) product *= (b + i) / (a + b + k + i);
      return product;
    };
    const least = (wish: number): number => {
      let sum = 0;
      for (let k = 0; k <= n; k += 1) {
        sum += chance(k);
        if (sum >= wish) return k;
      }
      return n;
    };
    const forecast = forecastShortfall(lot, 22);
    expect([forecast.likely, forecast.nineInTen]).toEqual([5 + least(0.5), 5 + least(0.9)]);
  });

  it('are ordered by a last day, or it is already too late', () => {
    expect(buyBy(40, 200, 21, 7, 100)).toEqual({ kind: 'by', day: 172 });
    expect(buyBy(40, 200, 21, 7, 180)).toEqual({ kind: 'too late', daysLate: 8 });
    expect(buyBy(0, 200, 21, 7, 180)).toEqual({ kind: 'nothing to buy' });
  });
});

describe('levels of care side by side', () => {
  it('keep more old nails the more care is taken, and buy the rest', () => {
    const choices = careChoices(432, 0.1);
    const kept = choices.map((choice) => choice.oldNailsKept);
    expect(kept).toEqual([...kept].sort((a, b) => b - a));
    for (const choice of choices) expect(choice.oldNailsKept + choice.toBuy).toBe(432);
    expect(choices[0].personHours).toBeGreaterThan(choices[1].personHours);
    expect(choices[2].newHolesInKept).toBe(432);
  });
});
