import { createHash } from 'node:crypto';
import { RefusalError, scratchKinds } from '@ribband/platform';
import fc from 'fast-check';
import { readTag, tagCode } from '@ribband/hull';
import { PictureBytes, PictureEntity } from '../pictures/picture.entity.js';
import { jpegOf, pngOf } from '../pictures/pictures.fixture.js';
import { Pictures } from '../pictures/pictures.service.js';
import { openSmallYard, refusalOf, type SmallYard } from '../repair.fixture.js';
import { FindPiece } from './find-piece.service.js';
import type { PieceDraft } from './piece-draft.js';
import { PieceNote } from './piece-note.entity.js';
import { Pieces } from './pieces.service.js';
import { likelyCodes, nextTagNumber } from './tag-number.js';

const plank: PieceDraft = {
  name: 'Strake 9, forward plank',
  elementKey: 'strake-9-plank-1-starboard',
  place: 'Starboard, strake 9, frames 5 to 13',
  face: 'inboard',
  heading: 'forward',
  fate: 'not said',
  keptAt: null,
  cameOffOn: null,
};

describe('tags', () => {
  it('are never alike, in whatever order they are written', () => {
    const taken = new Set<number>();
    for (let index = 0; index < 3000; index += 1) taken.add(nextTagNumber(taken.size, taken));
    expect(taken.size).toBe(3000);
    for (const number of [...taken].slice(0, 300)) expect(readTag(tagCode(number))).toMatchObject({ number });
  });

  it('stay unique where some numbers were given out elsewhere', () => {
    fc.assert(
      fc.property(fc.uniqueArray(fc.integer({ min: 0, max: 923_520 }), { maxLength: 50 }), (before) => {
        const taken = new Set(before);
        for (let index = 0; index < 20; index += 1) {
          const number = nextTagNumber(taken.size, taken);
          expect(taken.has(number)).toBe(false);
          taken.add(number);
        }
      }),
    );
  });

  it('keyed with two signs swapped are refused with the one that was meant', () => {
    const numbers = Array.from({ length: 400 }, (_, serial) => (104_729 + serial * 611_953) % 923_521);
    const code = tagCode(numbers[37] ?? 0);
    const swapped = code.replace(/^(.)(.)/, '$2$1');
    if (swapped !== code) expect(likelyCodes(swapped, numbers)[0]).toBe(code);
    expect(likelyCodes('ZZZZZZZZZZ', numbers)).toEqual([]);
  });
});

describe.each(scratchKinds())('Pieces that came off, on %s', (kind) => {
  let yard: SmallYard;
  beforeAll(async () => {
    yard = await openSmallYard(kind);
  });
  beforeEach(() => yard.renew());
  afterAll(() => yard.close());

  const volunteer = () => yard.as('volunteer', 'marguerite-alkin');
  const base64 = (bytes: Buffer) => bytes.toString('base64');

  it('a volunteer tags what comes off, and the code leads back to it with one sign wrong', async () => {
    const piece = await yard.get(Pieces).tag(await volunteer(), plank);
    const code = tagCode(piece.tagNumber);
    const find = yard.get(FindPiece);
    expect(await find.byCode(await volunteer(), code.toLowerCase())).toMatchObject({
      reading: 'right',
      piece: { id: piece.id },
    });
    const other = code[0] === '7' ? '8' : '7';
    expect(await find.byCode(await volunteer(), other + code.slice(1))).toMatchObject({
      reading: 'mended',
      piece: { id: piece.id },
    });
    const twoWrong = `${other}${code[1] === 'Q' ? 'R' : 'Q'}${code.slice(2)}`;
    const lost = await find.byCode(await volunteer(), twoWrong);
    if (lost.piece === null) expect(lost.likely.map((one) => one.id)).toEqual([piece.id]);
    else expect(lost.reading).toBe('mended');
  });

  it('another yard’s code finds nothing here', async () => {
    const piece = await yard.get(Pieces).tag(await volunteer(), plank);
    await yard.renew();
    const found = await yard.get(FindPiece).byCode(await volunteer(), tagCode(piece.tagNumber));
    expect(found).toMatchObject({ reading: 'not in use', piece: null, likely: [] });
  });

  it('what becomes of it the shipwright says, and each change is a line of its story', async () => {
    const pieces = yard.get(Pieces);
    const piece = await pieces.tag(await volunteer(), plank);
    const refused = await refusalOf(pieces.edit(await volunteer(), piece.id, 1, { fate: 'scrap' }));
    expect(refused.code).toBe('NOT_PERMITTED');
    const moved = await pieces.edit(await volunteer(), piece.id, 1, {
      keptAt: 'rack 3, upper tier',
      cameOffOn: '2027-03-27',
    });
    const kept = await pieces.edit(await yard.as('shipwright'), piece.id, moved.version, { fate: 'refit' });
    expect(kept).toMatchObject({ fate: 'refit', keptAt: 'rack 3, upper tier', version: 3 });
    const notes = await yard.database.read.find(PieceNote, {
      where: { pieceId: piece.id },
      order: { id: 'ASC' },
    });
    expect(notes.map((note) => note.words)).toEqual([
      'Tag written.',
      'came off on 2027-03-27; kept at rack 3, upper tier.',
      'fate: refit.',
    ]);
    const stale = await refusalOf(pieces.edit(await volunteer(), piece.id, 1, { keptAt: 'rack 4' }));
    expect(stale.code).toBe('CHANGED_MEANWHILE');
  });

  it('a day to come, an empty name, a key that names no element are refused by their field', async () => {
    const wrong: [keyof PieceDraft, string | null][] = [
      ['cameOffOn', '2027-03-28'],
      ['cameOffOn', '2027-02-30'],
      ['name', ' '],
      ['place', 'x'.repeat(300)],
      ['elementKey', '../strake'],
      ['keptAt', 'a\u0000b'],
    ];
    for (const [field, value] of wrong) {
      const refused = await refusalOf(yard.get(Pieces).tag(await volunteer(), { ...plank, [field]: value }));
      expect(refused).toMatchObject({ code: 'BAD_INPUT', field });
    }
  });

  it('what the tasks open is tagged in one go, and nothing twice', async () => {
    const shipwright = await yard.as('shipwright');
    const made = await yard.get(Pieces).tagWhatOpens(shipwright);
    expect(made.map((piece) => piece.name)).toEqual(['Frame 12']);
    expect(await yard.get(Pieces).tagWhatOpens(shipwright)).toEqual([]);
  });

  it('crowds tagging at once get a tag each', async () => {
    const caller = await volunteer();
    const made = await Promise.all(Array.from({ length: 8 }, () => yard.get(Pieces).tag(caller, plank)));
    expect(new Set(made.map((piece) => piece.tagNumber)).size).toBe(8);
  });

  it('a picture is kept as it looks and handed out to its own yard alone', async () => {
    const caller = await volunteer();
    const pictures = yard.get(Pictures);
    const piece = await yard.get(Pieces).tag(caller, plank);
    const row = await pictures.add(caller, piece.id, base64(jpegOf(800, 600, 'GPS')), 'inboard face');
    const served = await pictures.serve(caller, row.id);
    expect(served).toMatchObject({ type: 'image/jpeg', hash: row.hash });
    expect(served?.bytes.includes('GPS')).toBe(false);
    expect(
      createHash('sha256')
        .update(served?.bytes ?? '')
        .digest('hex'),
    ).toBe(row.hash);
    await yard.renew();
    expect(await pictures.serve(await volunteer(), row.id)).toBeNull();
    const foreign = await refusalOf(pictures.add(await volunteer(), piece.id, base64(pngOf(8, 8)), null));
    expect(foreign).toMatchObject({ code: 'NOT_FOUND', field: 'pieceId' });
  });

  it('what is no picture, too large, or one too many is refused, and nothing half of it is kept', async () => {
    const caller = await volunteer();
    const pictures = yard.get(Pictures);
    const piece = await yard.get(Pieces).tag(caller, plank);
    const wrong = [
      base64(Buffer.from('<svg onload="alert(1)"/>')),
      base64(pngOf(3000, 10)),
      base64(Buffer.alloc(2_000_000, 0xff)),
      'not base 64!',
      '',
    ];
    for (const bytes of wrong)
      expect(await refusalOf(pictures.add(caller, piece.id, bytes, null))).toMatchObject({ field: 'base64' });
    for (let index = 0; index < 12; index += 1)
      await pictures.add(caller, piece.id, base64(pngOf(8, 8)), null);
    const full = await refusalOf(pictures.add(caller, piece.id, base64(pngOf(8, 8)), null));
    expect(full.message).toContain('at most 12');
    expect(await yard.database.read.countBy(PictureBytes, { organisationId: yard.organisationId })).toBe(12);
  });

  it('a picture that is taken down is gone, but not silently', async () => {
    const caller = await volunteer();
    const pictures = yard.get(Pictures);
    const piece = await yard.get(Pieces).tag(caller, plank);
    const row = await pictures.add(caller, piece.id, base64(pngOf(8, 8)), null);
    const stranger = { ...(await yard.as('volunteer', 'anselm-druitt')), accountId: 'account_of_another' };
    await expect(pictures.remove(stranger, row.id, 'I do not like it')).rejects.toBeInstanceOf(RefusalError);
    expect(await refusalOf(pictures.remove(caller, row.id, ' '))).toMatchObject({ field: 'reason' });
    await pictures.remove(caller, row.id, 'a face is in it');
    expect(await pictures.serve(caller, row.id)).toBeNull();
    expect(await yard.database.read.findOneBy(PictureEntity, { id: row.id })).toMatchObject({
      removedBy: 'The volunteer',
      removeReason: 'a face is in it',
    });
    expect(await yard.database.read.countBy(PictureBytes, { pictureId: row.id })).toBe(0);
  });
});
