import { type Hull, OPENING_RULES } from '@ribband/hull';
import { insertAll } from '@ribband/crew';
import { newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { limitsOf } from '../methods/work-out.js';
import { SurveyRecord } from '../survey/survey.entity.js';
import { HullElement } from './hull-element.entity.js';
import { OpeningLimit } from './opening-limit.entity.js';

const rules = Object.values(OPENING_RULES).map((rule) => rule.key);

/** Whether a limit was laid by the hull's rules; the yard's own limits stay as they are. */
const isLaid = (limit: OpeningLimit): boolean => rules.some((key) => limit.ref.startsWith(`${key}-`));

/** The newest survey of an organisation, in whose choices the shipwright's values stand. */
export const surveyOf = (manager: EntityManager, organisationId: string): Promise<SurveyRecord | null> =>
  manager.findOne(SurveyRecord, { where: { organisationId }, order: { id: 'DESC' } });

/**
 * Lays the limits of the hull's rules over all elements that are on record, so that plan, posting and report count
 * the same sets. What was set aside by hand stays set aside as long as its limit is there.
 * @param now epoch milliseconds by the real clock
 */
export async function layLimits(
  manager: EntityManager,
  organisationId: string,
  hull: Hull,
  now: number,
): Promise<void> {
  const elements = await manager.findBy(HullElement, { organisationId });
  const idOf = new Map(elements.map(({ ref, id }) => [ref, id]));
  const settings = (await surveyOf(manager, organisationId))?.survey.choices.openings ?? {};
  const wanted = limitsOf(hull, [...idOf.keys()], settings);
  const standing = new Map(
    (await manager.findBy(OpeningLimit, { organisationId })).filter(isLaid).map((row) => [row.ref, row]),
  );
  for (const { ref, name, elements: keys, atMost, basis, override } of wanted) {
    const row = standing.get(ref);
    standing.delete(ref);
    const said = { name, atMost, basis, elementIds: keys.map((key) => idOf.get(key) ?? '') };
    const setAside = {
      overrideBy: override?.by ?? null,
      overrideReason: override?.reason ?? null,
      overriddenAt: override ? now : null,
      overrideElementIds: null,
      overrideUntilOn: null,
    };
    if (!row)
      await insertAll(manager, OpeningLimit, [
        { id: newId('limit'), organisationId, ref, version: 1, ...said, ...setAside },
      ]);
    else if (JSON.stringify(said) !== JSON.stringify(saidBy(row)))
      await manager.update(OpeningLimit, { id: row.id }, { ...said, version: row.version + 1 });
  }
  for (const row of standing.values()) await manager.delete(OpeningLimit, { id: row.id });
}

const saidBy = ({ name, atMost, basis, elementIds }: OpeningLimit) => ({ name, atMost, basis, elementIds });
