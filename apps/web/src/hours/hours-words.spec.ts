import { sayHours, sayMoney, sayTimes, totalMinutes } from './hours-words.js';

describe('hours in words', () => {
  it('are said to the minute, for people are paid and thanked by them', () => {
    expect(sayHours(450)).toBe('7 h 30');
    expect(sayHours(65)).toBe('1 h 05');
    expect(sayHours(-60)).toBe('−1 h');
    expect(sayHours(0)).toBe('0 h');
  });

  it('have their worth in dollars and cents', () => {
    expect(sayMoney(1_234_550)).toBe('$12,345.50');
    expect(sayMoney(-2899)).toBe('−$28.99');
  });

  it('have their times in the yard’s zone', () => {
    const span = { startsAt: '2027-03-06T17:00:00Z', endsAt: '2027-03-06T19:30:00Z' };
    expect(sayTimes(span, 'America/Los_Angeles')).toBe('09:00 to 11:30');
    expect(sayTimes({ startsAt: span.startsAt, endsAt: null }, 'America/Los_Angeles')).toBe('since 09:00');
    expect(sayTimes({ startsAt: null, endsAt: null }, 'America/Los_Angeles')).toBe('');
  });

  it('of somebody who is still signed on do not count yet', () => {
    expect(totalMinutes([{ minutes: 60 }, { minutes: null }, { minutes: -15 }])).toBe(45);
  });
});
