import fc from 'fast-check';
import { HullRefusal } from '../refusal.js';
import { formatBits, QR_MOST_BYTES, qrCode } from './qr-code.js';
import { checkBytes } from './reed-solomon.js';

/** As read back by a reader that is not ours. */
const READ_BACK = `
#######...##..#######
#.....#.##.##.#.....#
#.###.#..#..#.#.###.#
#.###.#..####.#.###.#
#.###.#.##..#.#.###.#
#.....#..#..#.#.....#
#######.#.#.#.#######
.........#.##........
#.#.#.#..###....#..#.
...#...#.#....##....#
#.....#.#.#.#...##..#
..##.#..#.....##....#
#..##.###.#.#.#...#..
........##.#.#....##.
#######..#.#.########
#.....#..#.###.#.#..#
#.###.#.#..#.####..##
#.###.#..##...#...##.
#.###.#.#...#..####.#
#.....#...#...##.#.#.
#######.###.#.####.##`.trim();

const drawn = (text: string): string =>
  qrCode(text)
    .map((row) => row.map((dark) => (dark ? '#' : '.')).join(''))
    .join('\n');

describe('a tag’s QR code (ISO/IEC 18004)', () => {
  it('is the one that a reader read back as the tag’s plain code', () => {
    expect(drawn('K7M-4TX')).toBe(READ_BACK);
  });

  it('has the check bytes of the standard’s own example (from memory: ISO/IEC 18004, annex I)', () => {
    const data = [
      0x10, 0x20, 0x0c, 0x56, 0x61, 0x80, 0xec, 0x11, 0xec, 0x11, 0xec, 0x11, 0xec, 0x11, 0xec, 0x11,
    ];
    expect(checkBytes(data, 10)).toEqual([0xa5, 0x24, 0xd4, 0xc1, 0xed, 0x36, 0xc7, 0x87, 0x2c, 0x55]);
  });

  it('writes level and mask as the standard’s table has them (from memory: ISO/IEC 18004)', () => {
    expect(formatBits(5).toString(2)).toBe('100000011001110');
    expect(formatBits(0).toString(2)).toBe('101010000010010');
  });

  it('grows with the text and is refused past what it holds', () => {
    expect([1, 14, 15, 42, 62, 84, 106].map((length) => qrCode('x'.repeat(length)).length)).toEqual([
      21, 21, 25, 29, 33, 37, 41,
    ]);
    expect(() => qrCode('x'.repeat(QR_MOST_BYTES + 1))).toThrow(HullRefusal);
  });

  it('differs for every text and keeps its three corner marks', () => {
    const text = fc.string({ maxLength: 30 });
    fc.assert(
      fc.property(text, text, (one, other) => {
        const rows = drawn(one).split('\n');
        expect([rows[0].slice(0, 7), rows[0].slice(-7), rows.at(-1)!.slice(0, 7)]).toEqual(
          new Array(3).fill('#######'),
        );
        expect(drawn(one) === drawn(other)).toBe(one === other);
      }),
      { numRuns: 20 },
    );
  });
});
