import type { StockOrders } from '@ribband/repair';
import type { ToldPlan } from '../plans/told-plan.js';
import { DayWords } from '../words/days.js';
import { fasteningsDue, stockDue } from './orders-due.service.js';

const day = 86_400_000;
const epoch = Date.UTC(2027, 2, 6, 12);

/** A plan of saw-plank on 5 June and saw-futtock on 19 June 2027; bend is done, and nobody has planned cap. */
function planned(): ToldPlan {
  const tasks = ['saw-plank', 'saw-futtock', 'bend', 'cap'];
  const starts = [91, 105, 10];
  return {
    indexOf: (id: string) => (tasks.includes(id) ? tasks.indexOf(id) : undefined),
    problem: { tasks: tasks.map((id) => ({ progress: { kind: id === 'bend' ? 'done' : 'waiting' } })) },
    plan: { tasks: starts.map((start) => ({ start })) },
    instant: (minute: number) => epoch + minute * day,
    days: new DayWords('UTC', '2027'),
  } as unknown as ToldPlan;
}

const piece = (name: string, taskId: string): StockOrders['pieces'][number] => ({ name, taskId });
const orders = (wanted: StockOrders['wanted'], pieces: StockOrders['pieces'] = []): StockOrders => ({
  leadDays: 60,
  wanted,
  pieces,
});

describe('stock that is wanting', () => {
  it('is ordered so many days before it is first cut, what is cut on one day together', () => {
    const wanted = [
      piece('plank A', 'saw-plank'),
      piece('futtock 3', 'saw-futtock'),
      piece('plank B', 'saw-plank'),
    ];
    expect(stockDue(orders(wanted), planned(), '2027-04-10')).toEqual([
      {
        on: '2027-04-06',
        words:
          'Order stock for plank A and plank B: cut on Sat 5 Jun, and finding stock usually takes 60 days.',
        isLate: true,
      },
      {
        on: '2027-04-20',
        words: 'Order stock for futtock 3: cut on Sat 19 Jun, and finding stock usually takes 60 days.',
        isLate: false,
      },
    ]);
  });

  it('is named by three pieces at most', () => {
    const wanted = ['A', 'B', 'C', 'D', 'E'].map((name) => piece(name, 'saw-plank'));
    expect(stockDue(orders(wanted), planned(), '2027-03-06')[0]?.words).toContain('for A, B, C and 2 more:');
  });

  it('is of no concern where the work is done, not planned, or not known', () => {
    const wanted = [piece('A', 'bend'), piece('B', 'cap'), piece('C', 'nothing')];
    expect(stockDue(orders(wanted), planned(), '2027-03-06')).toEqual([]);
    expect(stockDue(orders(null, wanted), planned(), '2027-03-06')).toEqual([]);
  });

  it('is not known before a lay-up is kept: then that is what is due, by the first cut', () => {
    const pieces = [piece('futtock 3', 'saw-futtock'), piece('plank A', 'saw-plank')];
    const [due, ...more] = stockDue(orders(null, pieces), planned(), '2027-04-06');
    expect(more).toEqual([]);
    expect(due).toMatchObject({ on: '2027-04-06', isLate: false });
    expect(due.words).toMatch(/^Lay the patterns up on the stock and keep it.*the first is cut on Sat 5 Jun/);
  });
});

describe('fastenings that will be wanting', () => {
  const trays = [
    { fastening: 'plank nails', driveRef: 'drive-b' },
    { fastening: 'plank nails', driveRef: 'drive-a' },
    { fastening: 'through bolts', driveRef: 'drive-bolts' },
    { fastening: 'ceiling spikes', driveRef: null },
  ];
  const startOf = new Map([
    ['drive-a', '2027-06-05'],
    ['drive-b', '2027-07-03'],
    ['drive-bolts', '2027-04-24'],
  ]);
  const due = (kinds: { fastening: string; nineInTenShort: number }[], today = '2027-04-10') =>
    fasteningsDue(kinds, trays, startOf, today, (day) => day);

  it('are ordered three weeks and a week to sort them before the first of any tray is driven', () => {
    expect(due([{ fastening: 'plank nails', nineInTenShort: 40 }])).toEqual([
      {
        on: '2027-05-08',
        words: 'Plank nails: 40 to order by 2027-05-08: the first is driven on 2027-06-05.',
        isLate: false,
      },
    ]);
  });

  it('are late where the day to order them has gone by', () => {
    expect(due([{ fastening: 'through bolts', nineInTenShort: 3 }])).toEqual([
      {
        on: '2027-03-27',
        words: 'Through bolts: 3 to order now: 14 days too late for the first, driven on 2027-04-24.',
        isLate: true,
      },
    ]);
  });

  it('are of no concern where none will be wanting, or the plan does not say when one is driven', () => {
    expect(
      due([
        { fastening: 'plank nails', nineInTenShort: 0 },
        { fastening: 'ceiling spikes', nineInTenShort: 12 },
      ]),
    ).toEqual([]);
  });
});
