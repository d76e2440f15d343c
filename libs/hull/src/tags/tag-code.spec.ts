import fc from 'fast-check';
import { readTag, TAG_CODES, tagCode } from './tag-code.js';

const CHARACTERS = '23456789ABCDEFGHJKMNPQRSTUVWXYZ';
const numbers = fc.integer({ min: 0, max: TAG_CODES - 1 });

describe('a tag’s plain code', () => {
  it('is its own for every piece', () => {
    const codes = Array.from({ length: 20_000 }, (_, number) => tagCode(number * 46));
    expect(new Set(codes).size).toBe(codes.length);
  });

  it('is read back however it is keyed', () => {
    fc.assert(
      fc.property(numbers, (number) => {
        const code = tagCode(number);
        expect(code).toMatch(/^[2-9A-HJKMNP-Z]{3}-[2-9A-HJKMNP-Z]{3}$/);
        expect(readTag(` ${code.replace('-', ' ').toLowerCase()}`)).toEqual({ kind: 'right', number, code });
      }),
    );
  });

  it('survives any one wrong character, and says which', () => {
    const place = fc.integer({ min: 0, max: 5 });
    fc.assert(
      fc.property(numbers, place, fc.constantFrom(...CHARACTERS, '0', 'O', '?'), (number, at, wrong) => {
        const plain = tagCode(number).replace('-', '');
        fc.pre(plain[at] !== wrong);
        const keyed = plain.slice(0, at) + wrong + plain.slice(at + 1);
        expect(readTag(keyed)).toMatchObject({ kind: 'mended', number, wrongAt: at + 1 });
      }),
      { numRuns: 500 },
    );
  });

  it('shows two neighbours swapped', () => {
    fc.assert(
      fc.property(numbers, fc.integer({ min: 0, max: 4 }), (number, at) => {
        const plain = tagCode(number).replace('-', '');
        fc.pre(plain[at] !== plain[at + 1]);
        const keyed = plain.slice(0, at) + plain[at + 1] + plain[at] + plain.slice(at + 2);
        expect(readTag(keyed).kind).toBe('unreadable');
      }),
    );
  });

  it('of a wrong length is unreadable', () => {
    expect(readTag('K7M-4T').kind).toBe('unreadable');
    expect(readTag('??M-4TX').kind).toBe('unreadable');
  });
});
