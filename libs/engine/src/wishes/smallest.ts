/**
 * A smallest set of wishes that can't all hold, by deletion: whatever can be left out while the rest still can't hold is
 * left out, first in large blocks, at the end one by one, until each that is left was tried and is needed (deletion
 * filter: Chinneck and Dravnieks 1991; by blocks: Zeller and Hildebrandt 2002; both from memory). About twice the size of
 * the answer times the logarithm of the number of wishes in tests.
 *
 * @param cannot whether these can't all hold; true of all of them
 * @param most how often `cannot` may be asked
 * @returns null where that is not enough
 */
export function smallest<T>(wishes: readonly T[], cannot: (some: T[]) => boolean, most: number): T[] | null {
  let kept = [...wishes];
  let asked = 0;
  let again = true;
  for (let size = Math.max(1, kept.length >> 1); again; size = Math.max(1, size >> 1)) {
    again = size > 1;
    for (let at = 0; at < kept.length;) {
      if (asked++ >= most) return null;
      const rest = [...kept.slice(0, at), ...kept.slice(at + size)];
      if (cannot(rest)) {
        kept = rest;
        again = true;
      } else at += size;
    }
  }
  return kept;
}
