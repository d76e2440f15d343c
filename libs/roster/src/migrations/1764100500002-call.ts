import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { flag, id, instant, integer, json, ref, text } = column;

/** Turnouts as they were called, and who was not there. */
export class Call1764100500002 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'turnout_call',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('turnoutId', 'turnout', { onDelete: 'CASCADE', indexed: false }),
        integer('version'),
        instant('calledAt'),
        text('calledBy'),
        json('visitors'),
        json('fallen'),
        json('turnedAway'),
        json('replaced'),
      ],
      { unique: [['turnoutId', 'version']] },
    );
    await createTable(
      runner,
      'absence',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('turnoutId', 'turnout', { onDelete: 'CASCADE', indexed: false }),
        ref('volunteerId'),
        flag('saidSo'),
      ],
      { unique: [['turnoutId', 'volunteerId']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
