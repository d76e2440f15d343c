/** The control whose path is the longest end of the refused field's path. */
export function controlFor(field: string | null | undefined, fields: Record<string, string>): string | null {
  if (!field) return null;
  const ends = Object.keys(fields)
    .filter(
      (end) =>
        field === end ||
        field.endsWith(`.${end}`) ||
        field.startsWith(`${end}.`) ||
        field.startsWith(`${end}[`),
    )
    .sort((a, b) => b.length - a.length);
  return ends[0] === undefined ? null : (fields[ends[0]] ?? null);
}
