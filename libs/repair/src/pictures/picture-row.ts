import { createHash } from 'node:crypto';
import { newId } from '@ribband/platform';
import type { CleanPicture } from './clean-picture.js';
import type { PictureEntity } from './picture.entity.js';

type About = Pick<
  PictureEntity,
  'organisationId' | 'pieceId' | 'caption' | 'addedBy' | 'addedByAccountId' | 'addedAt'
>;

/** The row of a picture that was read. */
export const pictureRow = (picture: CleanPicture, about: About): PictureEntity => ({
  id: newId('picture'),
  ...about,
  type: picture.type,
  width: picture.width,
  height: picture.height,
  byteCount: picture.bytes.length,
  hash: createHash('sha256').update(picture.bytes).digest('hex'),
  removedAt: null,
  removedBy: null,
  removeReason: null,
});
