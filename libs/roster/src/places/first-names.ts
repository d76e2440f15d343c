/** First names; of two that are alike each has the first letter of what follows. */
export function firstNames(names: readonly string[]): string[] {
  const parted = names.map((name) => {
    const [first = '', ...rest] = name.trim().split(/\s+/);
    return { first, initial: rest.at(-1)?.charAt(0) ?? '' };
  });
  return parted.map(({ first, initial }) => {
    const isAlone = parted.filter((other) => other.first === first).length === 1;
    return isAlone || initial === '' ? first : `${first} ${initial}.`;
  });
}
