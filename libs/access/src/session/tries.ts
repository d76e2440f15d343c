import { Inject, Injectable } from '@nestjs/common';
import { RealClock, refuse } from '@ribband/platform';

const windowMillis = 15 * 60_000;
const mostKept = 20_000;

/** How many tries within a quarter of an hour, before any password is looked at. */
const most = {
  /** One account from one address: somebody guessing. */
  both: 10,
  /** One account from anywhere: many guessing; high, so that nobody can lock a person out cheaply. */
  account: 100,
  /** One address, any account: a yard shares one address. */
  address: 60,
} as const;

interface Count {
  tries: number;
  until: number;
}

/**
 * Counts tries to sign in. Called once for each try, however many of them one document holds. Kept in this
 * process: with several API processes the limits hold for each.
 */
@Injectable()
export class Tries {
  private readonly counts = new Map<string, Count>();

  constructor(@Inject(RealClock) private readonly clock: RealClock) {}

  /** Counts a try. @throws RefusalError TOO_MANY_TRIES */
  count(email: string, address: string): void {
    const keys = this.keys(email, address);
    const over = keys.filter(([key, limit]) => this.read(key).tries >= limit);
    if (over.length > 0) {
      const until = Math.max(...over.map(([key]) => this.read(key).until));
      const minutes = Math.max(1, Math.ceil((until - this.clock.now()) / 60_000));
      refuse('TOO_MANY_TRIES', 'Too many tries to sign in.', {
        remedy: `Wait ${minutes} minutes, then try again.`,
        facts: { minutes },
      });
    }
    for (const [key] of keys) this.read(key).tries++;
  }

  /** Forgets the tries on the account from this address, after one that was right. */
  forget(email: string, address: string): void {
    const [both] = this.keys(email, address);
    this.counts.delete(both[0]);
  }

  private keys(email: string, address: string): [[string, number], ...[string, number][]] {
    return [
      [`both ${address} ${email}`, most.both],
      [`account ${email}`, most.account],
      [`address ${address}`, most.address],
    ];
  }

  private read(key: string): Count {
    const now = this.clock.now();
    const known = this.counts.get(key);
    if (known && known.until > now) return known;
    const fresh = { tries: 0, until: now + windowMillis };
    this.counts.delete(key);
    this.counts.set(key, fresh);
    // The oldest go first; a flood of made-up accounts runs into the limit of its address.
    for (const oldest of this.counts.keys()) {
      if (this.counts.size <= mostKept) break;
      this.counts.delete(oldest);
    }
    return fresh;
  }
}
