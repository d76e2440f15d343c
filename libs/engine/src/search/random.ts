/** Numbers that look random and follow from the seed alone (sfc32, Doty-Humphrey; from memory). */
export class Random {
  #a: number;
  #b: number;
  #c: number;
  #count = 1;

  constructor(seed: number) {
    this.#a = seed | 0;
    this.#b = (seed / 0x100000000) | 0;
    this.#c = 0x9e3779b9 | 0;
    for (let k = 0; k < 12; k++) this.bits();
  }

  /** 32 bits as a signed integer. */
  bits(): number {
    const sum = (((this.#a + this.#b) | 0) + this.#count) | 0;
    this.#count = (this.#count + 1) | 0;
    this.#a = this.#b ^ (this.#b >>> 9);
    this.#b = (this.#c + (this.#c << 3)) | 0;
    this.#c = (this.#c << 21) | (this.#c >>> 11);
    this.#c = (this.#c + sum) | 0;
    return sum;
  }

  /** In [0, 1). */
  share(): number {
    return (this.bits() >>> 0) / 0x100000000;
  }

  /** A whole number in [0, below). */
  below(below: number): number {
    return Math.floor(this.share() * below);
  }
}
