import type { Hull } from '@ribband/hull';
import { refuse } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { inPlaceOf } from './set-up-trays.js';
import { standingOf } from './tray-standing.js';
import { Tray } from './tray.entity.js';
import { entriesOf } from './tray.records.js';

/**
 * Trays of planks hold what the outline says that they are fastened with, so they change with it.
 * @throws RefusalError BAD_INPUT where more has been entered of a tray than would be in place
 */
export async function followOutline(
  manager: EntityManager,
  organisationId: string,
  hull: Hull,
): Promise<void> {
  const planks = new Map(hull.planks.map((plank) => [plank.key, plank]));
  for (const tray of await manager.findBy(Tray, { organisationId })) {
    const plank = planks.get(tray.elementKey);
    if (!plank) continue;
    const now = inPlaceOf(hull, plank);
    if (JSON.stringify(now.frames) === JSON.stringify(tray.frames)) continue;
    const standing = standingOf(now, await entriesOf(manager, tray.id));
    if ('fault' in standing)
      refuse(
        'BAD_INPUT',
        `Tray ${tray.name} would have ${now.inPlace} in place: ${standing.fault.message}.`,
        {
          field: 'outline',
          remedy: 'Correct what was entered of the tray, or the outline.',
        },
      );
    await manager.update(Tray, { id: tray.id }, now);
  }
}
