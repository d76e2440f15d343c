/** Bays as they are typed, "14, 22"; none where nothing was typed, null where something else was. */
export function readBays(typed: string): number[] | null {
  const parts = typed.split(/[\s,]+/).filter(Boolean);
  if (!parts.every((part) => /^\d+$/.test(part))) return null;
  return [...new Set(parts.map(Number))].sort((a, b) => a - b);
}
