import { newId, refuse } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { Lot } from './lot.entity.js';
import { TrayEntryEntity } from './tray-entry.entity.js';
import { countOf, type LineKind } from './tray-line.js';
import { entriesThatCount, standingOf, type TrayStanding } from './tray-standing.js';
import { Tray } from './tray.entity.js';

/** A tray of the organisation. @throws RefusalError NOT_FOUND, naming the input field */
export const trayOf = async (
  manager: EntityManager,
  organisationId: string,
  id: string,
  field: string,
): Promise<Tray> =>
  (await manager.findOneBy(Tray, { organisationId, id })) ??
  refuse('NOT_FOUND', 'There is no such tray.', { field, remedy: 'Choose one from the list.' });

/** All that was entered of a tray, oldest first. */
export const entriesOf = (manager: EntityManager, trayId: string): Promise<TrayEntryEntity[]> =>
  manager.find(TrayEntryEntity, { where: { trayId }, order: { id: 'ASC' } });

/** An entry with nothing in it yet. */
export const blankEntry = (
  tray: Pick<Tray, 'id' | 'organisationId'>,
  entered: Pick<TrayEntryEntity, 'yardAt' | 'enteredAt' | 'enteredBy' | 'accountId'>,
): TrayEntryEntity => ({
  id: newId('trayentry'),
  organisationId: tray.organisationId,
  trayId: tray.id,
  frame: null,
  lines: [],
  holes: [],
  counted: null,
  lotId: null,
  tallyId: null,
  twinId: null,
  note: null,
  ...entered,
  correctsId: null,
  reason: null,
});

/** The field of the API that stands for a kind of line. */
export const fieldOf: Record<LineKind, string> = {
  received: 'count',
  bought: 'bought',
  drawn: 'drawn',
  'pulled through': 'pulledThrough',
  cut: 'cut',
  punched: 'punched',
  'bored out': 'boredOut',
  'left in place': 'leftInPlace',
  sound: 'sound',
  scrapped: 'scrapped',
  lost: 'lost',
  lent: 'count',
  driven: 'driven',
};

/**
 * Writes an entry if the tray, and the lot that it draws on, can bear it.
 * @throws RefusalError NEGATIVE_COUNT naming the count that is too high, NOT_FOUND or BAD_INPUT for a lot that is none of
 * the tray's
 */
export async function writeEntry(
  manager: EntityManager,
  tray: Tray,
  entry: TrayEntryEntity,
): Promise<TrayStanding> {
  const rows = [...(await entriesOf(manager, tray.id)), entry];
  const standing = standingOf(tray, rows, entry.id);
  if ('fault' in standing) {
    const { line, message, wouldBeRight } = standing.fault;
    return refuse('NEGATIVE_COUNT', `Tray ${tray.name}: ${message}`, {
      field: line === null ? 'trayId' : fieldOf[line.kind],
      remedy: `${wouldBeRight.charAt(0).toUpperCase()}${wouldBeRight.slice(1)}, or correct the entry that is wrong.`,
    });
  }
  refuseHoleTwice(standing, tray);
  if (countOf(entry.lines, ['driven']) > 0) refuseMoreThanHoles(tray, rows, standing);
  const lot = entry.lotId === null ? null : await lotFor(manager, tray, entry.lotId);
  await manager.insert(TrayEntryEntity, entry);
  if (lot) await refuseOverdrawn(manager, lot);
  return standing;
}

/** Each hole takes one, and none in which a stub stays. */
function refuseMoreThanHoles(
  tray: Tray,
  rows: readonly TrayEntryEntity[],
  { balance: { driven } }: TrayStanding,
): void {
  const left = entriesThatCount(rows).reduce((sum, { lines }) => sum + countOf(lines, ['left in place']), 0);
  const holes = tray.inPlace - left;
  if (driven > holes)
    refuse(
      'NEGATIVE_COUNT',
      `Tray ${tray.name}: ${driven} driven is ${driven - holes} more than there are holes.`,
      {
        field: fieldOf.driven,
        remedy: `There are ${holes} in all; correct the entry that is wrong.`,
      },
    );
}

/** The lot that fastenings of a tray are taken from. */
async function lotFor(
  manager: EntityManager,
  { organisationId, name, fastening }: Tray,
  lotId: string,
): Promise<Lot> {
  const lot =
    (await manager.findOneBy(Lot, { organisationId, id: lotId })) ??
    refuse('NOT_FOUND', 'There is no such lot.', { field: 'lotId', remedy: 'Choose one from the list.' });
  if (lot.fastening !== fastening)
    refuse('BAD_INPUT', `The lot "${lot.name}" does not match the ${fastening} of tray ${name}.`, {
      field: 'lotId',
      remedy: `A lot of ${fastening}; it holds ${lot.fastening}.`,
    });
  return lot;
}

function refuseHoleTwice({ holes }: TrayStanding, tray: Tray): void {
  const keys = new Set<string>();
  for (const { key } of holes) {
    if (keys.has(key))
      refuse('ALREADY_EXISTS', `Tray ${tray.name}: the hole ${key.replaceAll('-', ' ')} is graded already.`, {
        field: 'holes',
        remedy: 'Correct the entry that graded it.',
      });
    keys.add(key);
  }
}

/** How many of a lot were put into trays. */
export async function takenOfLot(
  manager: EntityManager,
  organisationId: string,
  lotId: string,
): Promise<number> {
  // A correction may name another lot, or none: all of a tray's entries are read before those of the lot are counted.
  const named = await manager.findBy(TrayEntryEntity, { organisationId, lotId });
  let taken = 0;
  for (const trayId of new Set(named.map((entry) => entry.trayId)))
    for (const entry of entriesThatCount(await entriesOf(manager, trayId)))
      if (entry.lotId === lotId) taken += countOf(entry.lines, ['bought']);
  return taken;
}

async function refuseOverdrawn(manager: EntityManager, lot: Lot): Promise<void> {
  const taken = await takenOfLot(manager, lot.organisationId, lot.id);
  if (taken > lot.count)
    refuse('NEGATIVE_COUNT', `The lot "${lot.name}" has not so many left.`, {
      field: 'bought',
      remedy: `${lot.count} came; these would make ${taken} put into trays.`,
    });
}
