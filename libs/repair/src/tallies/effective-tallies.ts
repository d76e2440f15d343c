/** A tally as far as corrections go. */
interface Correctable {
  id: string;
  correctsId: string | null;
}

export interface Effective<T> {
  /** The row that counts. */
  tally: T;
  /** The row that was entered first; when it was entered says where the tally stands among the others. */
  first: T;
}

/** The tallies that count: of each one the newest correction, in the order in which the first ones were entered. */
export function effectiveTallies<T extends Correctable>(rows: readonly T[]): Effective<T>[] {
  const correction = new Map<string, T>();
  for (const row of rows) if (row.correctsId !== null) correction.set(row.correctsId, row);
  return rows
    .filter((row) => row.correctsId === null)
    .map((first) => {
      let tally = first;
      for (let next = correction.get(tally.id); next; next = correction.get(tally.id)) tally = next;
      return { tally, first };
    });
}
