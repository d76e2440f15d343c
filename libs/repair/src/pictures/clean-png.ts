import type { Cleaned } from './cleaned.js';

/** What a PNG needs to look as it should; texts, times, Exif and whatever else is left out. */
const kept = new Set(['IHDR', 'PLTE', 'IDAT', 'IEND', 'tRNS', 'gAMA', 'cHRM', 'sRGB', 'pHYs']);

/** A PNG (ISO/IEC 15948) is its eight first bytes and chunks: length, four letters, content, check sum. */
export function cleanPng(bytes: Buffer): Cleaned {
  const parts: Buffer[] = [bytes.subarray(0, 8)];
  let size: { width: number; height: number } | null = null;
  let at = 8;
  while (at + 12 <= bytes.length) {
    const length = bytes.readUInt32BE(at);
    const name = bytes.toString('latin1', at + 4, at + 8);
    const next = at + 12 + length;
    if (next > bytes.length) return null;
    if (size === null) {
      if (name !== 'IHDR' || length !== 13) return null;
      size = { width: bytes.readUInt32BE(at + 8), height: bytes.readUInt32BE(at + 12) };
    }
    if (name === 'acTL') return null;
    if (kept.has(name)) parts.push(bytes.subarray(at, next));
    if (name === 'IEND') return { ...size, bytes: Buffer.concat(parts) };
    at = next;
  }
  return null;
}
