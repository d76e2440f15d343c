/** A number as it shall be written, with its places. */
export class Figure {
  constructor(readonly text: string) {}

  static withTwoPlaces(value: number): Figure {
    return new Figure(value.toFixed(2));
  }
}

export type Cell = string | number | Figure | null;

/**
 * Rows as comma-separated text after RFC 4180: CRLF ends each line, and what holds a comma, a quote or a line break
 * stands in quotes.
 *
 * A spreadsheet runs text that begins with =, +, - or @ (also after a tab or a line break) as a formula. Text of that
 * kind gets an apostrophe in front, which spreadsheets take for "this is text". Numbers are left as they are.
 */
export function toCsv(rows: readonly (readonly Cell[])[]): string {
  return rows.map((row) => `${row.map(written).join(',')}\r\n`).join('');
}

function written(value: Cell): string {
  if (value === null) return '';
  if (typeof value === 'number') return String(value);
  if (value instanceof Figure) return value.text;
  const text = /^[=+\-@\t\r\n]/.test(value) ? `'${value}` : value;
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
