import type { OpeningLimit } from './opening-limit.entity.js';

type Overridable = Pick<
  OpeningLimit,
  'elementIds' | 'atMost' | 'overrideBy' | 'overrideElementIds' | 'overrideUntilOn'
>;

/** Whether the shipwright's override of a limit counts on a day. */
const overrideStands = (limit: Pick<OpeningLimit, 'overrideBy' | 'overrideUntilOn'>, day: string): boolean =>
  limit.overrideBy !== null && (limit.overrideUntilOn === null || day <= limit.overrideUntilOn);

/** The elements that a limit counts on a day: all, but for those that an override lets be open. */
export function countedOn(limit: Overridable, day: string): string[] {
  if (!overrideStands(limit, day)) return limit.elementIds;
  const spared = limit.overrideElementIds;
  return spared === null ? [] : limit.elementIds.filter((id) => !spared.includes(id));
}
