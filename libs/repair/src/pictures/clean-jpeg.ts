import type { Cleaned } from './cleaned.js';

const startOfScan = 0xda;
const endOfImage = 0xd9;
/** APP0 holds the density, APP14 how the colours are coded: without them the picture looks different. */
const keptApplications = new Set([0xe0, 0xee]);

/**
 * A JPEG (ITU-T T.81, annex B) is a row of segments: FF, a marker, two bytes of length, so much content. Kept are those that
 * the picture needs; dropped are comments and the other applications' (Exif with its place, XMP, maker's notes).
 */
export function cleanJpeg(bytes: Buffer): Cleaned {
  const kept: Buffer[] = [bytes.subarray(0, 2)];
  let size: { width: number; height: number } | null = null;
  let at = 2;
  while (at + 4 <= bytes.length) {
    if (bytes[at] !== 0xff) return null;
    const marker = bytes[at + 1] ?? 0;
    if (marker === 0xff) {
      at += 1;
      continue;
    }
    const length = bytes.readUInt16BE(at + 2);
    const next = at + 2 + length;
    if (length < 2 || next > bytes.length) return null;
    if (isFrame(marker)) {
      if (length < 8 || size !== null) return null;
      size = { height: bytes.readUInt16BE(at + 5), width: bytes.readUInt16BE(at + 7) };
    }
    if (isKept(marker)) kept.push(bytes.subarray(at, next));
    at = marker === startOfScan ? endOfScan(bytes, next) : next;
    if (marker === startOfScan) kept.push(bytes.subarray(next, at));
    if (bytes[at] === 0xff && bytes[at + 1] === endOfImage)
      return size && { ...size, bytes: Buffer.concat([...kept, bytes.subarray(at, at + 2)]) };
  }
  return null;
}

/** Start of frame: C0 to CF but for the tables C4, C8 and CC. */
const isFrame = (marker: number): boolean =>
  marker >= 0xc0 && marker <= 0xcf && marker !== 0xc4 && marker !== 0xc8 && marker !== 0xcc;

function isKept(marker: number): boolean {
  const isApplication = marker >= 0xe0 && marker <= 0xef;
  if (isApplication) return keptApplications.has(marker);
  return marker !== 0xfe;
}

/** Where the coded picture ends: at the first marker that is neither a stuffed FF 00 nor a restart D0 to D7. */
function endOfScan(bytes: Buffer, from: number): number {
  let at = from;
  while (at + 1 < bytes.length) {
    at = bytes.indexOf(0xff, at);
    if (at < 0 || at + 1 >= bytes.length) return bytes.length;
    const next = bytes[at + 1] ?? 0;
    if (next !== 0 && !(next >= 0xd0 && next <= 0xd7)) return at;
    at += 2;
  }
  return bytes.length;
}
