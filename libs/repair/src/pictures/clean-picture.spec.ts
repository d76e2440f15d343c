import fc from 'fast-check';
import { cleanPicture } from './clean-picture.js';
import { jpegOf, pngOf, webpOf } from './pictures.fixture.js';

const place = 'GPS 47.61 N 122.33 W';
const holds = (bytes: Buffer | undefined, text: string): boolean => bytes?.includes(text) ?? false;

describe('a picture that is handed in', () => {
  it('loses where and by whom it was taken, whatever its kind', () => {
    const pictures = [
      { type: 'image/jpeg', bytes: jpegOf(640, 480, place) },
      {
        type: 'image/png',
        bytes: pngOf(640, 480, [
          ['tEXt', `Comment\0${place}`],
          ['eXIf', place],
        ]),
      },
      {
        type: 'image/webp',
        bytes: webpOf(640, 480, [
          ['EXIF', place],
          ['XMP ', place],
        ]),
      },
    ];
    for (const { type, bytes } of pictures) {
      expect(holds(bytes, place)).toBe(true);
      const clean = cleanPicture(bytes);
      expect(clean).toMatchObject({ type, width: 640, height: 480 });
      expect(holds(clean?.bytes, place)).toBe(false);
      expect(holds(clean?.bytes, 'somebody')).toBe(false);
      // What is clean stays as it is.
      expect(cleanPicture(clean?.bytes ?? Buffer.alloc(0))).toEqual(clean);
    }
  });

  it('loses what hangs on behind its end', () => {
    const script = Buffer.from('<script>alert(1)</script>');
    for (const bytes of [jpegOf(8, 8), pngOf(8, 8), webpOf(8, 8)]) {
      const clean = cleanPicture(Buffer.concat([bytes, script]));
      expect(clean).not.toBeNull();
      expect(holds(clean?.bytes, 'script')).toBe(false);
    }
  });

  it('is known by its own bytes and not by a name: a page, a drawing with scripts, a moving picture are none', () => {
    for (const text of [
      '<html><script>1</script>',
      '<svg xmlns="http://www.w3.org/2000/svg"/>',
      'GIF89a',
      '%PDF-1.7',
    ])
      expect(cleanPicture(Buffer.from(text))).toBeNull();
    expect(cleanPicture(Buffer.concat([Buffer.from([0xff, 0xd8, 0xff]), Buffer.from('<html>')]))).toBeNull();
    expect(cleanPicture(pngOf(8, 8, [['acTL', 'moving..']]))).toBeNull();
    expect(cleanPicture(webpOf(8, 8, [['ANIM', 'moving']]))).toBeNull();
  });

  it('is refused when it is cut short anywhere', () => {
    for (const bytes of [jpegOf(8, 8, place), pngOf(8, 8), webpOf(8, 8)])
      for (let end = 0; end < bytes.length; end += 1) {
        const cut = cleanPicture(bytes.subarray(0, end));
        // A WebP may end after its picture: what is missing then were remarks.
        if (cut !== null) expect(cut.type).toBe('image/webp');
      }
  });

  it('never makes the reader stumble, whatever the bytes', () => {
    const start = fc.constantFrom(
      Buffer.from([0xff, 0xd8, 0xff]),
      Buffer.from('\x89PNG\r\n\x1a\n', 'latin1'),
      Buffer.from('RIFF\x20\0\0\0WEBP', 'latin1'),
      Buffer.alloc(0),
    );
    fc.assert(
      fc.property(start, fc.uint8Array({ maxLength: 200 }), (first, rest) => {
        const picture = cleanPicture(Buffer.concat([first, rest]));
        if (picture) expect(picture.width * picture.height).toBeGreaterThan(0);
      }),
      { numRuns: 2000 },
    );
  });
});
