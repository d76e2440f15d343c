/** How far somebody has come in a skill, 0 to 4. The numbers are kept; people read the words. */
export const levelWords = ['none', 'learning', 'works alone', 'teaches', 'may say so'] as const;

export const highestLevel = levelWords.length - 1;

export function inWords(level: number): string {
  const words = isLevel(level) ? levelWords.at(level) : undefined;
  if (words === undefined) throw new RangeError(`A skill has levels 0 to ${highestLevel}, not ${level}.`);
  return words;
}

export function isLevel(level: number): boolean {
  return Number.isInteger(level) && level >= 0 && level <= highestLevel;
}
