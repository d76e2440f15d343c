/** Luck of the world, from a seed: its own generator, none of the engine's (mulberry32, Ettinger; from memory). */
export class Dice {
  #state: number;

  constructor(seed: number) {
    this.#state = seed | 0;
  }

  /** In [0, 1). */
  share(): number {
    this.#state = (this.#state + 0x6d2b79f5) | 0;
    let t = Math.imul(this.#state ^ (this.#state >>> 15), 1 | this.#state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  between(low: number, high: number): number {
    return low + this.share() * (high - low);
  }

  whole(low: number, high: number): number {
    return Math.floor(this.between(low, high + 1));
  }

  chance(p: number): boolean {
    return this.share() < p;
  }

  one<T>(list: readonly T[]): T {
    return list[this.whole(0, list.length - 1)];
  }

  /** Standard normal (Box and Muller 1958). */
  normal(): number {
    return Math.sqrt(-2 * Math.log(1 - this.share())) * Math.cos(2 * Math.PI * this.share());
  }

  /** Mean 1, the given relative spread. */
  factor(spread: number): number {
    const variance = Math.log(1 + spread * spread);
    return Math.exp(Math.sqrt(variance) * this.normal() - variance / 2);
  }
}
