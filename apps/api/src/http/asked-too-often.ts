/** Addresses that are remembered; the oldest go first. */
const mostKept = 20_000;

/** Counts how often something is asked from one address. Kept in this process: with several the limit holds for each. */
export class AskedTooOften {
  private readonly counts = new Map<string, { times: number; until: number }>();

  constructor(
    private readonly most: number,
    private readonly windowMillis: number,
    private readonly now: () => number = Date.now,
  ) {}

  /** Counts once more. @returns how many milliseconds to wait; 0 where it is not too often */
  count(address: string): number {
    const now = this.now();
    const known = this.counts.get(address);
    if (!known || known.until <= now) {
      this.counts.delete(address);
      this.counts.set(address, { times: 1, until: now + this.windowMillis });
      const oldest = this.counts.keys().next();
      if (this.counts.size > mostKept && oldest.value !== undefined) this.counts.delete(oldest.value);
      return 0;
    }
    known.times += 1;
    return known.times > this.most ? known.until - now : 0;
  }
}
