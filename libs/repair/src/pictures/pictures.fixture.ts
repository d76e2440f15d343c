import { deflateSync, crc32 } from 'node:zlib';

const chunk = (name: string, content: Buffer): Buffer => {
  const body = Buffer.concat([Buffer.from(name, 'latin1'), content]);
  const whole = Buffer.alloc(body.length + 8);
  whole.writeUInt32BE(content.length, 0);
  body.copy(whole, 4);
  whole.writeUInt32BE(crc32(body), body.length + 4);
  return whole;
};

/** A grey PNG of a size, with further chunks before its end. */
export function pngOf(width: number, height: number, more: [string, string][] = []): Buffer {
  const head = Buffer.alloc(13);
  head.writeUInt32BE(width, 0);
  head.writeUInt32BE(height, 4);
  head.set([8, 0, 0, 0, 0], 8);
  const rows = deflateSync(Buffer.alloc((width + 1) * height, 0x55));
  return Buffer.concat([
    Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
    chunk('IHDR', head),
    ...more.map(([name, text]) => chunk(name, Buffer.from(text, 'latin1'))),
    chunk('IDAT', rows),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

const segment = (marker: number, content: Buffer): Buffer => {
  const head = Buffer.from([0xff, marker, 0, 0]);
  head.writeUInt16BE(content.length + 2, 2);
  return Buffer.concat([head, content]);
};

/** The bones of a JPEG: enough for whoever reads its segments, with remarks of every kind between them. */
export function jpegOf(width: number, height: number, exif: string | null = null): Buffer {
  const frame = Buffer.from([8, 0, 0, 0, 0, 1, 1, 0x11, 0]);
  frame.writeUInt16BE(height, 1);
  frame.writeUInt16BE(width, 3);
  return Buffer.concat([
    Buffer.from([0xff, 0xd8]),
    segment(0xe0, Buffer.from('JFIF\0\x01\x01\0\0\x01\0\x01\0\0', 'latin1')),
    ...(exif === null ? [] : [segment(0xe1, Buffer.from(`Exif\0\0${exif}`, 'latin1'))]),
    segment(0xfe, Buffer.from('taken by somebody', 'latin1')),
    segment(0xc0, frame),
    segment(0xda, Buffer.from([1, 1, 0, 0, 63, 0])),
    Buffer.from([0x12, 0xff, 0x00, 0x34, 0xff, 0xd0, 0x56]),
    Buffer.from([0xff, 0xd9]),
  ]);
}

/** A WebP with the chunks given; `VP8L` holds the size. */
export function webpOf(width: number, height: number, more: [string, string][] = []): Buffer {
  const lossless = Buffer.alloc(6);
  lossless[0] = 0x2f;
  lossless.writeUInt32LE((width - 1) | ((height - 1) << 14), 1);
  const extended = Buffer.alloc(10);
  extended[0] = 0x3e;
  extended.writeUIntLE(width - 1, 4, 3);
  extended.writeUIntLE(height - 1, 7, 3);
  const part = (name: string, content: Buffer): Buffer => {
    const whole = Buffer.alloc(8 + content.length + (content.length % 2));
    whole.write(name, 0, 'latin1');
    whole.writeUInt32LE(content.length, 4);
    content.copy(whole, 8);
    return whole;
  };
  const body = Buffer.concat([
    Buffer.from('WEBP', 'latin1'),
    part('VP8X', extended),
    part('VP8L', lossless),
    ...more.map(([name, text]) => part(name, Buffer.from(text, 'latin1'))),
  ]);
  const head = Buffer.from('RIFF\0\0\0\0', 'latin1');
  head.writeUInt32LE(body.length, 4);
  return Buffer.concat([head, body]);
}
