import type { Caller, RequestContext } from '@ribband/access';
import { groupedBy, loader } from '@ribband/crew';
import { Database } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import type { EntityManager } from 'typeorm';
import { kindStanding } from './lot-book.js';
import { Lot } from './lot.entity.js';
import type { FasteningKind } from './lot.types.js';
import { TrayEntryEntity } from './tray-entry.entity.js';
import { countOf } from './tray-line.js';
import { entriesThatCount, standingOf } from './tray-standing.js';
import { Tray } from './tray.entity.js';

/** Entries that count, by tray. */
async function entriesByTray(
  manager: EntityManager,
  organisationId: string,
): Promise<Map<string, TrayEntryEntity[]>> {
  const rows = await manager.find(TrayEntryEntity, { where: { organisationId }, order: { id: 'ASC' } });
  const ids = [...new Set(rows.map((row) => row.trayId))];
  const grouped = groupedBy(ids, rows, (row) => row.trayId);
  return new Map(ids.map((id, at) => [id, entriesThatCount(grouped[at] ?? [])]));
}

/** How many of each lot were put into trays. */
function takenFrom(entries: ReadonlyMap<string, TrayEntryEntity[]>): Map<string, number> {
  const taken = new Map<string, number>();
  for (const entry of [...entries.values()].flat())
    if (entry.lotId !== null)
      taken.set(entry.lotId, (taken.get(entry.lotId) ?? 0) + countOf(entry.lines, ['bought']));
  return taken;
}

/** Balance and shortfall of each kind of fastening. Three reads, whatever the number of trays. */
@Injectable()
export class FasteningKinds {
  constructor(@Inject(Database) private readonly database: Database) {}

  async all(
    { organisationId }: Pick<Caller, 'organisationId'>,
    manager: EntityManager = this.database.read,
  ): Promise<FasteningKind[]> {
    const trays = await manager.find(Tray, { where: { organisationId }, order: { id: 'ASC' } });
    const lots = await manager.findBy(Lot, { organisationId });
    const entries = await entriesByTray(manager, organisationId);
    const taken = takenFrom(entries);
    return [...new Set(trays.map((tray) => tray.fastening))].map((fastening) => {
      const own = trays.filter((tray) => tray.fastening === fastening);
      let left = 0;
      const standings = own.map((tray) => {
        // Corrections are worked in already: what counts stands as if it had been entered so.
        const said = (entries.get(tray.id) ?? []).map((entry) => ({ ...entry, correctsId: null }));
        const standing = standingOf(tray, said);
        if ('fault' in standing) throw new Error(`tray ${tray.id}: ${standing.fault.message}`);
        left += said.reduce((sum, entry) => sum + countOf(entry.lines, ['left in place']), 0);
        return { name: tray.name, balance: standing.balance, off: standing.off };
      });
      const matching = lots.filter((lot) => lot.fastening === fastening);
      const { forecast, ...standing } = kindStanding(fastening, standings, left, matching, taken);
      return {
        ...standing,
        scrapShare: forecast.scrapShare,
        likelyShort: forecast.likely,
        nineInTenShort: forecast.nineInTen,
      };
    });
  }
}

/** What is left of lots. */
@Injectable()
export class LotLeft {
  constructor(@Inject(Database) private readonly database: Database) {}

  async of(lot: Lot, context: RequestContext): Promise<number> {
    const taken = await loader(context, 'repair.lotsTaken', (ids: readonly string[]) =>
      Promise.all(ids.map(async (id) => takenFrom(await entriesByTray(this.database.read, id)))),
    ).load(lot.organisationId);
    return lot.count - (taken.get(lot.id) ?? 0);
  }
}
