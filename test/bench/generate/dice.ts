/** Seeded pseudo-random numbers (xorshift on 32 bits, Marsaglia 2003; from memory): the same seed, the same numbers. */
export class Dice {
  #state: number;

  constructor(seed: number) {
    // Spreads small seeds over all bits; 0 would stay 0 for ever.
    this.#state = Math.imul(seed + 1, 0x9e3779b1) | 0 || 1;
    for (let k = 0; k < 8; k++) this.share();
  }

  /** At least 0, below 1. */
  share(): number {
    let x = this.#state;
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    this.#state = x;
    return (x >>> 0) / 2 ** 32;
  }

  /** A whole number, `least` and `most` included. */
  whole(least: number, most: number): number {
    return least + Math.floor(this.share() * (most - least + 1));
  }

  chance(share: number): boolean {
    return this.share() < share;
  }

  one<T>(list: readonly T[]): T {
    return list[this.whole(0, list.length - 1)];
  }

  shuffled<T>(list: readonly T[]): T[] {
    const mixed = [...list];
    for (let k = mixed.length - 1; k > 0; k--) {
      const other = this.whole(0, k);
      [mixed[k], mixed[other]] = [mixed[other], mixed[k]];
    }
    return mixed;
  }
}
