import { type AgeTable, hazardAges } from '@ribband/crew';
import { hazardCatalogue, hazardCodes } from '../hazards/hazard-catalogue.js';
import type { AgesInForce } from './safety-records.types.js';

/** An age table as it is shown: every hazard by name, beside what is usual and where that comes from. */
export function agesInForce({ byHazard, ...ages }: AgeTable): AgesInForce {
  return {
    ...ages,
    byHazard: hazardCodes.map((hazard) => ({
      hazard,
      name: hazardCatalogue[hazard].name,
      from: byHazard[hazard] ?? null,
      usual: hazardAges[hazard]?.age ?? null,
      basis: hazardAges[hazard]?.basis ?? 'no age is usual',
    })),
  };
}
