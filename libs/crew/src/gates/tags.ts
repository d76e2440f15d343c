import { onTheDay } from './found.js';
import type { Case, Finding, WorkRule } from './gate.types.js';
import { carriersFor, mostCarriers } from './lifting.js';
import type { TagKind } from './yard-facts.js';

function tagged(kind: TagKind, { occasion }: Pick<Case, 'occasion'>): boolean {
  return occasion.yard.tags.some(
    (tag) =>
      tag.kind === kind && !tag.isWithdrawn && tag.inspectedOn <= occasion.on && occasion.on <= tag.expiresOn,
  );
}

const inspect = 'A competent person inspects it and writes the tag down under “Permits and weather”.';

/** Work above ground waits for staging with a tag of the day. 29 CFR 1915.71 for the staging; the tag is common practice. */
export const stagingGate: WorkRule = (given): Finding[] =>
  given.job.hazards.includes('fall') && !tagged('staging', given)
    ? [
        onTheDay(given.occasion.asked)(
          'staging',
          'No staging carries an inspection tag that counts on that day.',
          inspect,
        ),
      ]
    : [];

/** More than four carriers, or above chest height, asks for gear with a tag of the day. Subpart G, from memory. */
export const liftingGearGate: WorkRule = (given): Finding[] => {
  const { lift } = given.job;
  const asksGear = lift !== null && (lift.isHigh || carriersFor(lift.pounds) > mostCarriers);
  if (!asksGear || tagged('lifting-gear', given)) return [];
  return [
    onTheDay(given.occasion.asked)(
      'lifting-gear',
      'This lift asks for lifting gear, and none carries an inspection tag that counts on that day.',
      inspect,
    ),
  ];
};
