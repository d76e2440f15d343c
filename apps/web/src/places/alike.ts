interface OpenLike {
  place: {
    id: string;
    task: { id: string };
    turnout: { id: string };
    skill?: { id: string } | null;
    role?: string | null;
  };
}

/** Open places that differ in nothing a volunteer could choose by: same work, same turnout, same skill, same role. */
export function gatherAlike<Open extends OpenLike>(open: Open[]): Open[][] {
  const groups = new Map<string, Open[]>();
  for (const each of open) {
    const { task, turnout, skill, role } = each.place;
    const key = `${turnout.id} ${task.id} ${skill?.id ?? ''} ${role ?? ''}`;
    groups.set(key, [...(groups.get(key) ?? []), each]);
  }
  return [...groups.values()];
}
