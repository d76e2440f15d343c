import { daysOf, orderWords } from './kind-plan.js';

const plain = (day: string): string => day;

describe('nails that will be wanting', () => {
  it('are ordered so many days before the first is driven, with a week to sort them', () => {
    const order = orderWords(40, '2027-07-10', 21, '2027-05-01', plain);
    expect(order.on).toBe('2027-06-12');
    expect(order.words).toContain('40 to order by 2027-06-12');
  });

  it('are said to be late when the day has gone by', () => {
    const order = orderWords(12, '2027-07-10', 60, '2027-06-01', plain);
    expect(order).toMatchObject({ on: '2027-05-04' });
    expect(order.words).toContain('28 days too late');
  });

  it('are not dated where none will be wanting, or nothing is planned', () => {
    expect(orderWords(0, '2027-07-10', 21, '2027-05-01', plain)).toMatchObject({ on: null });
    expect(orderWords(9, null, 21, '2027-05-01', plain).words).toContain('does not say yet');
  });

  it('are pulled and driven between the first and the last day of their tasks', () => {
    expect(daysOf([])).toBeNull();
    const spans = [
      { from: '2027-05-08', until: '2027-05-12' },
      { from: '2027-04-03', until: '2027-04-04' },
    ];
    expect(daysOf(spans)).toEqual({ from: '2027-04-03', until: '2027-05-12' });
  });
});
