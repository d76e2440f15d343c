import { Random } from '../search/random.js';
import { gammaOfRange, paceOfFinished, pinRate, rateOf, ratesByCrew } from './rates.js';
import { learningOf, totalByAverage, totalByUnits, unitTime } from './learning-curve.js';
import { showUpOf, togetherOf } from './show-ups.js';
import { latenessOf, reworkOf, setUpOf } from './happenings.js';
import { normalAt, normalBelow } from '../normal.js';

const book = { low: 8, high: 20 };

/** Counts of turnouts of 10 hours at a pace that differs by a share from one to the next. */
function tallies(pace: number, turnouts: number, spread: number, seed: number, share = 1) {
  const random = new Random(seed);
  const normal = () => normalAt(Math.max(1e-6, random.share()));
  let done = 0;
  return Array.from({ length: turnouts }, () => {
    const mean = 10 * pace * (done + 1) ** -Math.log2(share) * Math.exp(spread * normal() - spread ** 2 / 2);
    const count = Math.max(0, Math.round(mean + Math.sqrt(mean) * normal()));
    done += count;
    return { count, hours: 10 };
  });
}

describe('the pace of a kind of work', () => {
  it('is the book’s where nothing was tallied', () => {
    const { pace, evidence } = rateOf([], book);
    expect(pace.shape / pace.rate).toBeCloseTo(14, 9);
    expect(evidence).toMatchObject({ turnouts: 0, pieces: 0, book });
  });

  it('holds nine tenths of its chance within the book’s range', () => {
    const { shape, rate } = gammaOfRange(book);
    const sd = Math.sqrt(shape) / rate;
    expect(shape / rate - 1.645 * sd).toBeCloseTo(8, 9);
    expect(shape / rate + 1.645 * sd).toBeCloseTo(20, 9);
  });

  it('becomes the crew’s own with its tallies, and says what it rests on', () => {
    const six = rateOf(tallies(11, 6, 0.1, 1), book);
    expect(six.pace.shape / six.pace.rate).toBeGreaterThan(10);
    expect(six.pace.shape / six.pace.rate).toBeLessThan(12.5);
    expect(six.evidence).toMatchObject({ turnouts: 6, hours: 60, book });
  });

  it('lies within its own nine tenths nine times in ten, whatever the spread from turnout to turnout', () => {
    let within = 0;
    const trials = 400;
    for (let seed = 1; seed <= trials; seed++) {
      const random = new Random(1000 + seed);
      const prior = gammaOfRange(book);
      const truth = (prior.shape + Math.sqrt(prior.shape) * normalAt(random.share())) / prior.rate;
      const spread = 0.1 + 0.4 * random.share();
      const { pace } = rateOf(tallies(truth, 8, spread, seed), book);
      const sd = Math.sqrt(pace.shape) / pace.rate;
      if (Math.abs(truth - pace.shape / pace.rate) < 1.645 * sd) within++;
    }
    expect(within / trials).toBeGreaterThan(0.84);
    expect(within / trials).toBeLessThan(0.96);
  });

  it('can be pinned with a reason, and not without', () => {
    const pinned = pinRate(rateOf(tallies(11, 6, 0.1, 1), book), 9, 'new hands from May on');
    expect(pinned.pace.shape / pinned.pace.rate).toBeCloseTo(9, 9);
    expect(pinned.evidence).toMatchObject({ turnouts: 6, pinned: { reason: 'new hands from May on' } });
    expect(() => pinRate(pinned, 9, ' ')).toThrow('reason');
  });

  it('of a crew leans on that of all crews while its own record is short', () => {
    const crews = new Map([
      ['quick', tallies(18, 10, 0.1, 2)],
      ['slow', tallies(9, 10, 0.1, 3)],
      ['new', tallies(9, 1, 0.1, 4)],
    ]);
    const { all, crews: learned } = ratesByCrew(crews, book);
    const mean = (name: string) => {
      const { pace } = learned.get(name) ?? all;
      return pace.shape / pace.rate;
    };
    expect(mean('quick')).toBeGreaterThan(15);
    expect(mean('slow')).toBeLessThan(mean('new'));
    expect(mean('new')).toBeLessThan(all.pace.shape / all.pace.rate);
  });

  it('of work without a count moves from its estimates towards the hours that it took', () => {
    const { shape, rate } = paceOfFinished([
      { plannedMinutes: 100, workedMinutes: 200 },
      { plannedMinutes: 300, workedMinutes: 600 },
    ]);
    expect(shape / rate).toBeCloseTo(4 / 6, 9);
  });
});

describe('learning', () => {
  // Wright (1936), from memory, computed for 85 % and a first piece of 40.
  it('follows Wright’s curve by either theory', () => {
    expect([2, 3, 4, 8, 10, 16].map((x) => Number(unitTime(40, 0.85, x).toFixed(3)))).toEqual([
      34, 30.917, 28.9, 24.565, 23.313, 20.88,
    ]);
    expect(totalByUnits(40, 0.85, 10)).toBeCloseTo(284.64, 2);
    expect(totalByAverage(40, 0.85, 10)).toBeCloseTo(233.13, 2);
  });

  it('is seen where a crew doubles its pace, and then expects the pace of now', () => {
    const record = tallies(4, 12, 0.1, 7, 0.85);
    const learned = rateOf(record, book);
    expect(learned.learning?.share).toBeGreaterThan(0.79);
    expect(learned.learning?.share).toBeLessThan(0.91);
    const last = record.slice(-3).reduce((sum, { count }) => sum + count, 0) / 30;
    expect(learned.pace.shape / learned.pace.rate / last).toBeGreaterThan(0.85);
    expect(learned.pace.shape / learned.pace.rate / last).toBeLessThan(1.15);
  });

  it('is not seen in an even pace, but for one record in twenty', () => {
    let seen = 0;
    for (let seed = 1; seed <= 200; seed++) {
      if (learningOf(tallies(14, 10, 0.25, seed), gammaOfRange(book), 0.25) !== null) seen++;
    }
    expect(seen).toBeLessThanOrEqual(10);
  });
});

describe('who comes', () => {
  it('after 7 of 10 comes 11 times in 15', () => {
    expect(showUpOf({ came: 7, expected: 10 }).mean).toBeCloseTo(0.733, 3);
    expect(() => showUpOf({ came: 3, expected: 2 })).toThrow('oftener');
  });

  it('is found to hang together where it does, and not where it does not', () => {
    const record = (share: number, seed: number) => {
      const random = new Random(seed);
      const chances = [0.9, 0.8, 0.8, 0.7, 0.6, 0.85, 0.75, 0.5];
      return Array.from({ length: 80 }, () => {
        const shared = Math.sqrt(share) * normalAt(random.share());
        return {
          expected: chances.map((chance) => ({
            chance,
            came: random.share() < normalBelow((normalAt(chance) - shared) / Math.sqrt(1 - share)),
          })),
        };
      });
    };
    expect(togetherOf(record(0, 1)).together).toBeLessThan(0.1);
    const much = togetherOf(record(0.3, 2));
    expect(Math.abs(much.together - 0.3)).toBeLessThan(3 * much.spread);
    expect(much.spread).toBeLessThan(0.12);
    expect(togetherOf([]).together).toBeLessThan(0.2);
  });
});

describe('what happens by the way', () => {
  it('leans on what is usual until the record is long', () => {
    expect(setUpOf([], 15).minutes).toBe(15);
    expect(setUpOf(Array<number>(30).fill(25), 15).minutes).toBeGreaterThan(23);
    expect(latenessOf([]).late.chance).toBe(0.25);
    expect(latenessOf([0, 0, 0, 0, 28 * 1440]).late.chance).toBeCloseTo(2 / 9, 9);
    expect(reworkOf(0, []).chance).toBe(0.05);
    expect(reworkOf(40, [0.5, 0.5, 0.5]).chance).toBeCloseTo(4 / 60, 9);
  });
});
