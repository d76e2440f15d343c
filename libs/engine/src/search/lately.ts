/** Lists remembered; a later one takes the place of an earlier one that falls on the same spot. */
const SPOTS = 1 << 16;

/**
 * Lists that were drawn lately, so that no pass is spent on one that is known already. Remembers two hashes a list,
 * one for the spot and one to tell lists on it apart, and so now and then takes a new list for an old one.
 */
export class Lately {
  readonly #marks = new Int32Array(SPOTS);

  /** Whether the list, with that crewing and that salt, was asked about before; remembers it. */
  had(list: Int32Array, hands: Uint8Array | null, salt: number): boolean {
    let spot = salt + 1;
    let mark = salt + 7;
    for (const i of list) {
      const word = hands === null ? i : i ^ (hands[i] << 20);
      spot = Math.imul(spot ^ word, 0x9e3779b1);
      spot ^= spot >>> 15;
      mark = (Math.imul(mark, 31) + word) | 0;
    }
    spot &= SPOTS - 1;
    // A spot that was never used holds 0.
    mark = mark === 0 ? 1 : mark;
    if (this.#marks[spot] === mark) return true;
    this.#marks[spot] = mark;
    return false;
  }
}
