import { Audit, permit, type Caller } from '@ribband/access';
import { Database, RealClock, refuse } from '@ribband/platform';
import { Inject, Injectable } from '@nestjs/common';
import { IsNull, type EntityManager } from 'typeorm';
import { pieceOf } from '../pieces/piece.records.js';
import { Pieces } from '../pieces/pieces.service.js';
import { wordsOf, wordsOrNull } from '../words.js';
import { cleanPicture, type CleanPicture } from './clean-picture.js';
import { pictureRow } from './picture-row.js';
import { PictureBytes, PictureEntity } from './picture.entity.js';

/** What the page makes of a picture before it sends it is far below this. */
export const mostPictureBytes = 1_500_000;
export const mostPixelsASide = 2048;
export const mostPicturesAPiece = 12;
const mostPicturesAYard = 5000;

/** A picture as it is handed out. */
export interface ServedPicture {
  type: string;
  hash: string;
  bytes: Buffer;
}

/** Pictures of pieces. */
@Injectable()
export class Pictures {
  constructor(
    @Inject(Database) private readonly database: Database,
    @Inject(Audit) private readonly audit: Audit,
    @Inject(RealClock) private readonly clock: RealClock,
    @Inject(Pieces) private readonly pieces: Pieces,
  ) {}

  /** Anybody at the yard adds a picture; what it says about place, time and camera is left out. */
  async add(caller: Caller, pieceId: string, base64: string, caption: string | null): Promise<PictureEntity> {
    const picture = readPicture(base64);
    const words = wordsOrNull(caption, 'caption', 200, 'The caption');
    const { organisationId } = caller;
    return this.database.write(async (manager) => {
      const piece = await pieceOf(manager, organisationId, pieceId, 'pieceId');
      await refuseTooMany(manager, organisationId, piece.id);
      const row = pictureRow(picture, {
        organisationId,
        pieceId: piece.id,
        caption: words,
        addedBy: caller.name,
        addedByAccountId: caller.accountId,
        addedAt: this.clock.now(),
      });
      await manager.insert(PictureEntity, row);
      await manager.insert(PictureBytes, {
        pictureId: row.id,
        organisationId,
        base64: picture.bytes.toString('base64'),
      });
      await this.pieces.note(manager, caller, piece.id, `Picture added${words ? `: ${words}` : ''}.`);
      await this.audit.note(manager, caller, 'addPicture', row.id, { piece: piece.id, bytes: row.byteCount });
      return row;
    });
  }

  /** Takes a picture down: its bytes go, its row stays with the reason. Volunteers take down their own. */
  async remove(caller: Caller, id: string, why: string): Promise<PictureEntity> {
    const { organisationId } = caller;
    const reason = wordsOf(why, 'reason', 300, 'Why the picture goes');
    return this.database.write(async (manager) => {
      const row =
        (await manager.findOneBy(PictureEntity, { organisationId, id, removedAt: IsNull() })) ??
        refuse('NOT_FOUND', 'There is no such picture.', { field: 'id', remedy: 'Read the piece again.' });
      if (row.addedByAccountId !== caller.accountId) permit(caller, 'director', 'coordinator', 'shipwright');
      const gone = { removedAt: this.clock.now(), removedBy: caller.name, removeReason: reason };
      await manager.update(PictureEntity, { id }, gone);
      await manager.delete(PictureBytes, { pictureId: id });
      await this.pieces.note(manager, caller, row.pieceId, `Picture taken down: ${reason}.`);
      await this.audit.note(manager, caller, 'removePicture', id, { reason });
      return Object.assign(row, gone);
    });
  }

  /** A picture of the caller's own yard; null reads the same for one of another yard and one that never was. */
  async serve(caller: Caller, id: string): Promise<ServedPicture | null> {
    const { organisationId } = caller;
    const row = await this.database.read.findOneBy(PictureEntity, {
      organisationId,
      id,
      removedAt: IsNull(),
    });
    if (!row) return null;
    const kept = await this.database.read.findOneBy(PictureBytes, { organisationId, pictureId: id });
    return kept && { type: row.type, hash: row.hash, bytes: Buffer.from(kept.base64, 'base64') };
  }
}

/** @throws RefusalError BAD_INPUT when it is no picture, or a larger one than the yard keeps */
export function readPicture(base64: string, field = 'base64'): CleanPicture {
  const no = (message: string): never =>
    refuse('BAD_INPUT', message, {
      field,
      remedy: `A JPEG, PNG or WebP of at most ${mostPixelsASide} pixels a side and ${mostPictureBytes / 1000} kilobytes.`,
    });
  if (base64.length > Math.ceil(mostPictureBytes / 3) * 4) return no('The picture is too large.');
  if (!/^[A-Za-z0-9+/]+={0,2}$/.test(base64) || base64.length % 4 !== 0)
    return no('These are not the bytes of a picture in base 64.');
  const picture = cleanPicture(Buffer.from(base64, 'base64')) ?? no('This is no whole picture.');
  if (picture.width > mostPixelsASide || picture.height > mostPixelsASide)
    return no(`The picture has ${picture.width} by ${picture.height} pixels.`);
  return picture;
}

async function refuseTooMany(manager: EntityManager, organisationId: string, pieceId: string): Promise<void> {
  const shown = { organisationId, removedAt: IsNull() };
  if ((await manager.countBy(PictureEntity, { ...shown, pieceId })) >= mostPicturesAPiece)
    refuse('BAD_INPUT', `A piece has at most ${mostPicturesAPiece} pictures.`, {
      field: 'pieceId',
      remedy: 'Take one down that shows little.',
    });
  if ((await manager.countBy(PictureEntity, shown)) >= mostPicturesAYard)
    refuse('BAD_INPUT', `A yard keeps at most ${mostPicturesAYard} pictures.`, {
      field: 'pieceId',
      remedy: 'Print the handover pack, then take down those that it no longer needs.',
    });
}
