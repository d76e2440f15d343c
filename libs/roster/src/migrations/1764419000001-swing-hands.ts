import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, instant, ref } = column;

/** Who stands by at a posted turnout. */
export class SwingHands1764419000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'swing_hand',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('turnoutId', 'turnout', { onDelete: 'CASCADE', indexed: false }),
        ref('volunteerId', null),
        instant('postedAt'),
        instant('leftAt', { nullable: true }),
      ],
      { unique: [['turnoutId', 'volunteerId']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
