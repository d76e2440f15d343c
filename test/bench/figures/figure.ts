/** One measured figure beside something measured in the same run. */
export interface Figure {
  name: string;
  value: number;
  unit: string;
  /** What it stands against, with its value. */
  against: string;
  /** `value` over the value it stands against; null where that is 0 and `value` is not. */
  ratio: number | null;
}

export function figure(name: string, value: number, unit: string, against: string, other: number): Figure {
  return {
    name,
    value: tidy(value),
    unit,
    against: `${against}: ${tidy(other)} ${unit}`,
    ratio: value === other ? 1 : other === 0 ? null : tidy(value / other),
  };
}

/** Four figures are enough. */
function tidy(value: number): number {
  return Number(value.toPrecision(4));
}

/** As a table to be read, one line a figure. */
export function figureTable(figures: Figure[]): string[] {
  const rows = figures.map(({ name, value, unit, against, ratio }) => [
    name,
    `${value} ${unit}`,
    against,
    told(ratio),
  ]);
  const all = [['figure', 'measured', 'against', 'ratio'], ...rows];
  const widths = all[0].map((_, k) => Math.max(...all.map((row) => row[k].length)));
  return all.map((row) =>
    row
      .map((cell, k) => cell.padEnd(widths[k]))
      .join('  ')
      .trimEnd(),
  );
}

/** The same table in Markdown. */
export function figureMarkdown(figures: Figure[]): string {
  const rows = figures.map(
    ({ name, value, unit, against, ratio }) => `| ${name} | ${value} ${unit} | ${against} | ${told(ratio)} |`,
  );
  return [
    '| figure | measured | against, in the same run | ratio |',
    '| --- | --- | --- | --- |',
    ...rows,
  ].join('\n');
}

function told(ratio: number | null): string {
  return ratio === null ? '-' : String(ratio);
}
