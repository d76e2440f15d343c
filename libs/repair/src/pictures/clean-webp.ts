import type { Cleaned } from './cleaned.js';

const kept = new Set(['VP8 ', 'VP8L', 'VP8X', 'ALPH']);
/** Of the flags of VP8X only "has alpha" stays: colour profile, Exif, XMP and motion are left out. */
const alphaFlag = 0x10;

/** A WebP (RFC 9649) is a RIFF of chunks: four letters, length, content, a byte to make it even. */
export function cleanWebp(bytes: Buffer): Cleaned {
  const end = Math.min(bytes.length, 8 + bytes.readUInt32LE(4));
  const parts: Buffer[] = [];
  let size: { width: number; height: number } | null = null;
  let at = 12;
  while (at + 8 <= end) {
    const name = bytes.toString('latin1', at, at + 4);
    const length = bytes.readUInt32LE(at + 4);
    const next = at + 8 + length + (length % 2);
    if (at + 8 + length > end) return null;
    const content = bytes.subarray(at + 8, at + 8 + length);
    if (name === 'ANIM' || name === 'ANMF') return null;
    if (kept.has(name)) {
      const chunk = Buffer.alloc(8 + length + (length % 2));
      bytes.copy(chunk, 0, at, at + 8 + length);
      if (name === 'VP8X') {
        if (length !== 10) return null;
        chunk[8] = (content[0] ?? 0) & alphaFlag;
      }
      parts.push(chunk);
      size ??= sizeOf(name, content);
    }
    at = next;
  }
  const hasPicture = parts.some((part) => ['VP8 ', 'VP8L'].includes(part.toString('latin1', 0, 4)));
  if (!size || !hasPicture) return null;
  const body = Buffer.concat([Buffer.from('WEBP', 'latin1'), ...parts]);
  const head = Buffer.alloc(8);
  head.write('RIFF', 0, 'latin1');
  head.writeUInt32LE(body.length, 4);
  return { ...size, bytes: Buffer.concat([head, body]) };
}

function sizeOf(name: string, content: Buffer): { width: number; height: number } | null {
  if (name === 'VP8X') return { width: content.readUIntLE(4, 3) + 1, height: content.readUIntLE(7, 3) + 1 };
  if (name === 'VP8 ') {
    // Frame tag (3), start code 9D 01 2A, then twice 14 bits of size and 2 of scale.
    if (content.length < 10 || content.readUIntBE(3, 3) !== 0x9d012a) return null;
    return { width: content.readUInt16LE(6) & 0x3fff, height: content.readUInt16LE(8) & 0x3fff };
  }
  if (name === 'VP8L') {
    if (content.length < 5 || content[0] !== 0x2f) return null;
    const bits = content.readUInt32LE(1);
    return { width: (bits & 0x3fff) + 1, height: ((bits >>> 14) & 0x3fff) + 1 };
  }
  return null;
}
