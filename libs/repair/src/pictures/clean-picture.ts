import { cleanJpeg } from './clean-jpeg.js';
import { cleanPng } from './clean-png.js';
import { cleanWebp } from './clean-webp.js';
import type { Cleaned, PictureBody } from './cleaned.js';

export const pictureTypes = ['image/jpeg', 'image/png', 'image/webp'] as const;
export type PictureType = (typeof pictureTypes)[number];

export interface CleanPicture extends PictureBody {
  type: PictureType;
}

/**
 * Reads a picture by its own first bytes, whatever its name says, and leaves out all that is not the picture: where
 * and by whom it was taken, thumbnails, remarks, and whatever hangs on behind its end.
 * @returns null when it is no whole JPEG, PNG or WebP, or a moving one
 */
export function cleanPicture(bytes: Buffer): CleanPicture | null {
  const [type, clean] = readerOf(bytes) ?? [];
  const picture = clean?.(bytes) ?? null;
  return type && picture && picture.width > 0 && picture.height > 0 ? { type, ...picture } : null;
}

function readerOf(bytes: Buffer): [PictureType, (bytes: Buffer) => Cleaned] | null {
  if (bytes.subarray(0, 3).equals(Buffer.from([0xff, 0xd8, 0xff]))) return ['image/jpeg', cleanJpeg];
  if (bytes.subarray(0, 8).equals(Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'))) return ['image/png', cleanPng];
  if (bytes.toString('latin1', 0, 4) === 'RIFF' && bytes.toString('latin1', 8, 12) === 'WEBP')
    return ['image/webp', cleanWebp];
  return null;
}
