import { RealClock } from '@ribband/platform';
import { Tries } from './tries.js';

class TestClock extends RealClock {
  at = 1_000_000;
  override now(): number {
    return this.at;
  }
}

const isStopped = (tries: Tries, email: string, address: string): boolean => {
  try {
    tries.count(email, address);
    return false;
  } catch (error) {
    expect(error).toMatchObject({ refusal: { code: 'TOO_MANY_TRIES' } });
    return true;
  }
};
const countUntilStopped = (once: (i: number) => boolean): number => {
  for (let i = 0; i < 1_000; i++) if (once(i)) return i;
  return Infinity;
};

describe('tries to sign in', () => {
  it('are stopped after ten on one account from one address, for a quarter of an hour', () => {
    const clock = new TestClock();
    const tries = new Tries(clock);
    expect(countUntilStopped(() => isStopped(tries, 'ada@yard.example', '10.0.0.1'))).toBe(10);
    clock.at += 14 * 60_000;
    expect(isStopped(tries, 'ada@yard.example', '10.0.0.1')).toBe(true);
    clock.at += 61_000;
    expect(isStopped(tries, 'ada@yard.example', '10.0.0.1')).toBe(false);
  });

  it('are stopped on one account when they come from many addresses', () => {
    const tries = new Tries(new TestClock());
    expect(countUntilStopped((i) => isStopped(tries, 'ada@yard.example', `10.0.1.${i}`))).toBe(100);
  });

  it('are stopped from one address when they go through many accounts', () => {
    const tries = new Tries(new TestClock());
    expect(countUntilStopped((i) => isStopped(tries, `hand${i}@yard.example`, '10.0.0.1'))).toBe(60);
  });

  it('of somebody else do not lock a person out', () => {
    const tries = new Tries(new TestClock());
    while (!isStopped(tries, 'ada@yard.example', '10.6.6.6'));
    expect(isStopped(tries, 'ada@yard.example', '10.0.0.1')).toBe(false);
  });

  it('are forgotten after the right password', () => {
    const tries = new Tries(new TestClock());
    for (let i = 0; i < 9; i++) tries.count('ada@yard.example', '10.0.0.1');
    tries.forget('ada@yard.example', '10.0.0.1');
    expect(countUntilStopped(() => isStopped(tries, 'ada@yard.example', '10.0.0.1'))).toBe(10);
  });
});
