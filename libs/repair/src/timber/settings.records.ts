import { DENSITY, inches, LAY_UP_RULES, MOISTURE_RULES, USABLE_DIAMETER } from '@ribband/hull';
import { newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import type { HaulOut } from '../haul-out/haul-out.entity.js';
import { TimberSettings } from './timber-settings.entity.js';

/** The book's settings, or the defaults (version 0) where nobody changed any. */
export async function settingsOf(manager: EntityManager, haulOut: HaulOut): Promise<TimberSettings> {
  const kept = await manager.findOneBy(TimberSettings, { haulOutId: haulOut.id });
  return kept ?? Object.assign(new TimberSettings(), defaults(haulOut));
}

/**
 * Air under a roof by the sea and the time to find stock: common practice, no source. The other values come with
 * their sources from the hull's own rules.
 */
const defaults = (haulOut: HaulOut): TimberSettings => ({
  id: newId('timbersettings'),
  haulOutId: haulOut.id,
  organisationId: haulOut.organisationId,
  version: 0,
  fahrenheit: 58,
  humidity: 0.72,
  plankingPercent: MOISTURE_RULES.planking.high,
  framesPercent: null,
  usableShare: USABLE_DIAMETER,
  poundsACubicFoot: DENSITY['Douglas fir, green'],
  sawMarginMillimetres: Math.round(inches(0.75)),
  grainRunOut: LAY_UP_RULES.runOut.value,
  leadDays: 56,
  changedBy: null,
  changedReason: null,
});
