/** Numbers from the printed sheet as they are typed in: "1-4 7, 9". */
export interface Read {
  numbers: number[];
  /** Pieces that are no number of the sheet. */
  wrong: string[];
}

export function readNumbers(text: string, most: number): Read {
  const numbers = new Set<number>();
  const wrong: string[] = [];
  for (const piece of text.split(/[\s,;]+/).filter(Boolean)) {
    const [, from, to] = /^(\d+)(?:[-–](\d+))?$/.exec(piece) ?? [];
    const first = Number(from);
    const last = to === undefined ? first : Number(to);
    if (from === undefined || first < 1 || last > most || last < first) wrong.push(piece);
    else for (let number = first; number <= last; number += 1) numbers.add(number);
  }
  return { numbers: [...numbers].sort((a, b) => a - b), wrong };
}

/** The letter of a piece of work on the sheet: A to Z, then AA. */
export function letterOf(index: number): string {
  const letter = String.fromCharCode(65 + (index % 26));
  return index < 26 ? letter : letterOf(Math.floor(index / 26) - 1) + letter;
}
