import { tagCode } from '@ribband/hull';
import { groupedBy, known } from '@ribband/crew';
import { instantToLocal } from '@ribband/platform';
import { In, IsNull, type EntityManager, type EntityTarget } from 'typeorm';
import { PictureBytes, PictureEntity } from '../pictures/picture.entity.js';
import { PieceNote } from '../pieces/piece-note.entity.js';
import { Piece } from '../pieces/piece.entity.js';
import { CareChoiceEntity } from '../trays/care-choice.entity.js';
import { Lot } from '../trays/lot.entity.js';
import { PlankRepair } from '../trays/plank-repair.entity.js';
import { TrayEntryEntity } from '../trays/tray-entry.entity.js';
import { entriesThatCount } from '../trays/tray-standing.js';
import { Tray } from '../trays/tray.entity.js';
import {
  type CameOffDocument,
  mostInlineCharacters,
  type PictureDocument,
  type PieceDocument,
  type TrayDocument,
} from './came-off-document.js';

/** Trays, lots, care and pieces of an organisation, in the order in which they were entered. */
export async function readCameOff(
  manager: EntityManager,
  organisationId: string,
  timeZone: string,
): Promise<CameOffDocument> {
  const rows = <T extends object>(entity: EntityTarget<T>): Promise<T[]> =>
    manager.find(entity, { where: { organisationId }, order: { id: 'ASC' } } as never);
  const day = (instant: number): string => instantToLocal(instant, timeZone).day;
  const lots = await rows(Lot);
  return {
    lots: lots.map(({ id: _id, organisationId: _organisation, ...lot }) => lot),
    trays: await readTrays(rows, lots, day),
    care: (await rows(CareChoiceEntity)).map(({ fastening, care, reason, chosenBy, yardAt }) => ({
      fastening,
      care,
      reason,
      by: chosenBy,
      on: day(yardAt),
    })),
    pieces: await readPieces(manager, organisationId, rows, day),
  };
}

type Rows = <T extends object>(entity: EntityTarget<T>) => Promise<T[]>;

async function readTrays(
  rows: Rows,
  lots: readonly Lot[],
  day: (at: number) => string,
): Promise<TrayDocument[]> {
  const lotRefs = new Map(lots.map((lot) => [lot.id, lot.ref]));
  const trays = await rows(Tray);
  const ids = trays.map((tray) => tray.id);
  const entries = groupedBy(ids, await rows(TrayEntryEntity), (row) => row.trayId);
  const repairs = groupedBy(ids, await rows(PlankRepair), (row) => row.trayId);
  return trays.map((tray, at) => ({
    ref: tray.ref,
    name: tray.name,
    element: tray.elementKey,
    place: tray.place,
    fastening: tray.fastening,
    inPlace: tray.inPlace,
    frames: tray.frames,
    pullTask: tray.pullRef,
    driveTask: tray.driveRef,
    entries: entriesThatCount(entries[at] ?? []).map((entry) => ({
      on: day(entry.yardAt),
      by: entry.enteredBy,
      frame: entry.frame,
      lines: entry.lines,
      holes: entry.holes,
      counted: entry.counted,
      lot: entry.lotId === null ? null : known(lotRefs, entry.lotId),
      note: entry.note,
    })),
    repairs: (repairs[at] ?? []).map(({ count, verdict, taskRef, reason, decidedBy, yardAt }) => ({
      count,
      verdict,
      task: taskRef,
      reason,
      by: decidedBy,
      on: day(yardAt),
    })),
  }));
}

async function readPieces(
  manager: EntityManager,
  organisationId: string,
  rows: Rows,
  day: (at: number) => string,
): Promise<PieceDocument[]> {
  const pieces = await rows(Piece);
  const ids = pieces.map((piece) => piece.id);
  const notes = groupedBy(ids, await rows(PieceNote), (row) => row.pieceId);
  const shown = await manager.find(PictureEntity, {
    where: { organisationId, removedAt: IsNull() },
    order: { id: 'ASC' },
  });
  const pictures = groupedBy(ids, shown, (row) => row.pieceId);
  const bytes = await bytesWithRoom(manager, shown);
  return pieces.map((piece, at) => ({
    code: tagCode(piece.tagNumber),
    name: piece.name,
    element: piece.elementKey,
    place: piece.place,
    face: piece.face,
    heading: piece.heading,
    fate: piece.fate,
    keptAt: piece.keptAt,
    cameOffOn: piece.cameOffOn,
    notes: (notes[at] ?? []).map(({ yardAt, enteredBy, words }) => ({
      on: day(yardAt),
      by: enteredBy,
      words,
    })),
    pictures: (pictures[at] ?? []).map(
      ({ id, hash, type, width, height, byteCount, caption, addedBy }): PictureDocument => ({
        ...{ hash, type, width, height, byteCount, caption },
        by: addedBy,
        base64: bytes.get(id) ?? null,
      }),
    ),
  }));
}

/** The bytes of the oldest pictures, as many as a document has room for. */
async function bytesWithRoom(
  manager: EntityManager,
  pictures: readonly PictureEntity[],
): Promise<Map<string, string>> {
  let room = mostInlineCharacters;
  const fit = pictures.filter(({ byteCount }) => {
    const characters = Math.ceil(byteCount / 3) * 4;
    if (characters > room) return false;
    room -= characters;
    return true;
  });
  const rows = await manager.findBy(PictureBytes, { pictureId: In(fit.map((picture) => picture.id)) });
  return new Map(rows.map((row) => [row.pictureId, row.base64]));
}

/**
 * The same document, with the pictures that it names without their bytes filled in from the yard's own records: they
 * outlive a document that had no room for them.
 */
export async function withOwnPictures<T extends { cameOff: CameOffDocument }>(
  manager: EntityManager,
  organisationId: string,
  document: T,
): Promise<T> {
  const wanted = document.cameOff.pieces.flatMap((piece) =>
    piece.pictures.flatMap(({ hash, base64 }) => (base64 === null ? [hash] : [])),
  );
  if (wanted.length === 0) return document;
  const there = await manager.findBy(PictureEntity, {
    organisationId,
    hash: In(wanted),
    removedAt: IsNull(),
  });
  const rows = await manager.findBy(PictureBytes, { pictureId: In(there.map((picture) => picture.id)) });
  const hashes = new Map(there.map((picture) => [picture.id, picture.hash]));
  const byHash = new Map(rows.map((row) => [hashes.get(row.pictureId), row.base64]));
  const pieces = document.cameOff.pieces.map((piece) => ({
    ...piece,
    pictures: piece.pictures.map((picture) => ({
      ...picture,
      base64: picture.base64 ?? byHash.get(picture.hash) ?? null,
    })),
  }));
  return { ...document, cameOff: { ...document.cameOff, pieces } };
}
