/** The control whose path is the longest end of the refused field's path. */
export function controlFor(field: string | null | undefined, fields: Record<string, string>): string | null {
  if (!field) return null;
  const fitting = Object.entries(fields)
    .filter(
      ([end]) =>
        field === end ||
        field.endsWith(`.${end}`) ||
        field.startsWith(`${end}.`) ||
        field.startsWith(`${end}[`),
    )
    .sort(([a], [b]) => b.length - a.length)
    .map(([, control]) => control)
    .at(0);
  return fitting ?? null;
}
