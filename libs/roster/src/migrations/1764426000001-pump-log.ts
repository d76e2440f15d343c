import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, instant, integer, ref, text } = column;
const maybe = { nullable: true } as const;

/** The pump log of watches afloat. */
export class PumpLog1764426000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'pump_entry',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('turnoutId', 'turnout', { onDelete: 'CASCADE' }),
        instant('readAt'),
        integer('depthMillimetres', maybe),
        integer('strokes', maybe),
        integer('minutes', maybe),
        text('doneBy'),
        text('remark', maybe),
        ref('correctsId', null, { nullable: true, indexed: false }),
        text('reason', maybe),
        text('writtenBy'),
        instant('writtenAt'),
      ],
      { unique: [['correctsId']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
