import type { OpeningLimit } from './opening-limit.entity.js';

type Overridable = Pick<
  OpeningLimit,
  'elementIds' | 'atMost' | 'overrideBy' | 'overrideElementIds' | 'overrideUntilOn'
>;

/** What an override lets be open and is not counted, and the last day of that; null: until it is taken back. */
export interface Spared {
  elementIds: string[];
  untilOn: string | null;
}

/** What the shipwright's override of a limit lets be open on a day; null where none counts on it. */
export function sparedOn(
  { elementIds, overrideBy, overrideElementIds, overrideUntilOn: untilOn }: Overridable,
  day: string,
): Spared | null {
  if (overrideBy === null || (untilOn !== null && day > untilOn)) return null;
  return { elementIds: overrideElementIds ?? elementIds, untilOn };
}

/** The elements that a limit counts on a day: all, but for those that an override lets be open. */
export function countedOn(limit: Overridable, day: string): string[] {
  const spared = sparedOn(limit, day)?.elementIds ?? [];
  return limit.elementIds.filter((id) => !spared.includes(id));
}
