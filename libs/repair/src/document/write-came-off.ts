import { insertAll, known } from '@ribband/crew';
import { readTag } from '@ribband/hull';
import { newId } from '@ribband/platform';
import type { EntityManager } from 'typeorm';
import { cleanPicture } from '../pictures/clean-picture.js';
import { PictureBytes, PictureEntity } from '../pictures/picture.entity.js';
import { pictureRow } from '../pictures/picture-row.js';
import { PieceNote } from '../pieces/piece-note.entity.js';
import { Piece } from '../pieces/piece.entity.js';
import { CareChoiceEntity } from '../trays/care-choice.entity.js';
import { Lot } from '../trays/lot.entity.js';
import { PlankRepair } from '../trays/plank-repair.entity.js';
import { TrayEntryEntity } from '../trays/tray-entry.entity.js';
import { blankEntry } from '../trays/tray.records.js';
import { Tray } from '../trays/tray.entity.js';
import type { CameOffDocument, PieceDocument, TrayDocument, TrayEntryDocument } from './came-off-document.js';

interface Entered {
  enteredBy: string;
  enteredAt: number;
}

/** Writes what came off, from a document that has been checked whole. @param endOf last instant of a local day */
export async function writeCameOff(
  manager: EntityManager,
  organisationId: string,
  document: CameOffDocument,
  entered: Entered,
  endOf: (day: string) => number,
): Promise<void> {
  const lots = document.lots.map((lot): Lot => ({ id: newId('lot'), organisationId, ...lot }));
  await insertAll(manager, Lot, lots);
  const lotIds = new Map(lots.map((lot) => [lot.ref, lot.id]));
  for (const { entries, repairs, ...one } of document.trays) {
    const tray = trayRow(organisationId, one);
    await manager.insert(Tray, tray);
    await insertAll(
      manager,
      TrayEntryEntity,
      entries.map((entry) => entryRow(tray, entry, lotIds, entered, endOf)),
    );
    await insertAll(
      manager,
      PlankRepair,
      repairs.map(({ task, by, on, ...said }) => ({
        id: newId('plankrepair'),
        organisationId,
        trayId: tray.id,
        ...said,
        taskRef: task,
        decidedBy: by,
        yardAt: endOf(on),
      })),
    );
  }
  await insertAll(
    manager,
    CareChoiceEntity,
    document.care.map(({ by, on, ...choice }) => ({
      id: newId('care'),
      organisationId,
      ...choice,
      chosenBy: by,
      yardAt: endOf(on),
      tasksChanged: 0,
    })),
  );
  for (const piece of document.pieces) await writePiece(manager, organisationId, piece, entered, endOf);
}

export const trayRow = (
  organisationId: string,
  { element, pullTask, driveTask, ...tray }: Omit<TrayDocument, 'entries' | 'repairs'>,
): Tray => ({
  id: newId('tray'),
  organisationId,
  ...tray,
  elementKey: element,
  pullRef: pullTask,
  driveRef: driveTask,
});

export const entryRow = (
  tray: Tray,
  { on, by, lot, ...said }: TrayEntryDocument,
  lotIds: ReadonlyMap<string, string>,
  { enteredAt }: Entered,
  endOf: (day: string) => number,
): TrayEntryEntity => ({
  ...blankEntry(tray, { yardAt: endOf(on), enteredAt, enteredBy: by, accountId: null }),
  ...said,
  lotId: lot === null ? null : known(lotIds, lot),
});

async function writePiece(
  manager: EntityManager,
  organisationId: string,
  { code, element, notes, pictures, ...piece }: PieceDocument,
  { enteredAt }: Entered,
  endOf: (day: string) => number,
): Promise<void> {
  const tag = readTag(code);
  if (tag.kind === 'unreadable')
    throw new Error(`${code} is no code: a document is checked before it is written`);
  const pieceId = newId('piece');
  const row: Piece = {
    id: pieceId,
    organisationId,
    tagNumber: tag.number,
    version: 1,
    ...piece,
    elementKey: element,
    taggedAt: enteredAt,
  };
  await manager.insert(Piece, row);
  const lost = pictures.filter((picture) => picture.base64 === null);
  const told = [
    ...notes,
    ...lost.map(({ by, caption }) => ({
      on: null,
      by,
      words: `A picture did not come with the yard file${caption === null ? '' : `: ${caption}`}.`,
    })),
  ];
  await insertAll(
    manager,
    PieceNote,
    told.map(({ on, by, words }) => ({
      id: newId('piecenote'),
      organisationId,
      pieceId,
      words,
      enteredBy: by,
      yardAt: on === null ? enteredAt : endOf(on),
    })),
  );
  for (const { base64, caption, by } of pictures) {
    const picture = base64 === null ? null : cleanPicture(Buffer.from(base64, 'base64'));
    if (picture === null) continue;
    const about = {
      organisationId,
      pieceId,
      caption,
      addedBy: by,
      addedByAccountId: null,
      addedAt: enteredAt,
    };
    const kept = pictureRow(picture, about);
    await manager.insert(PictureEntity, kept);
    await manager.insert(PictureBytes, {
      pictureId: kept.id,
      organisationId,
      base64: picture.bytes.toString('base64'),
    });
  }
}
