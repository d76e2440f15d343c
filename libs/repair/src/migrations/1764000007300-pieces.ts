import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, ref, text, integer, day, instant, oneOf, version } = column;

const nullable = { nullable: true };
const organisation = (options: { indexed?: boolean } = {}) =>
  ref('organisationId', 'organisation', { onDelete: 'CASCADE', ...options });
const ofPiece = () => ref('pieceId', 'piece', { onDelete: 'CASCADE' });

/** Parts that come off, with their tags, stories and pictures. */
export class Pieces1764000007300 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'piece',
      [
        id(),
        organisation({ indexed: false }),
        integer('tagNumber'),
        version(),
        text('name'),
        text('elementKey', nullable),
        text('place'),
        oneOf('face', ['outboard', 'inboard', 'forward', 'aft', 'upper', 'lower'], nullable),
        oneOf('heading', ['forward', 'aft', 'up', 'down'], nullable),
        oneOf('fate', ['not said', 'refit', 'pattern', 'archive', 'scrap']),
        text('keptAt', nullable),
        day('cameOffOn', nullable),
        instant('taggedAt'),
      ],
      { unique: [['organisationId', 'tagNumber']] },
    );
    await createTable(runner, 'piece_note', [
      id(),
      organisation(),
      ofPiece(),
      text('words'),
      text('enteredBy'),
      instant('yardAt'),
    ]);
    await createTable(runner, 'picture', [
      id(),
      organisation(),
      ofPiece(),
      oneOf('type', ['image/jpeg', 'image/png', 'image/webp']),
      integer('width'),
      integer('height'),
      integer('byteCount'),
      text('hash'),
      text('caption', nullable),
      text('addedBy'),
      ref('addedByAccountId', null, { nullable: true, indexed: false }),
      instant('addedAt'),
      instant('removedAt', nullable),
      text('removedBy', nullable),
      text('removeReason', nullable),
    ]);
    await createTable(runner, 'picture_bytes', [id('pictureId'), organisation(), text('base64')]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
