import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, instant, oneOf, ref, text } = column;

/** Who came to a turnout. */
export class Attendance1764100300001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'attendance',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('turnoutId', 'turnout', { onDelete: 'CASCADE', indexed: false }),
        ref('volunteerId'),
        instant('arrivedAt'),
        instant('leftAt', { nullable: true }),
        oneOf('how', ['ticked', 'badge', 'self', 'paper']),
        text('enteredBy'),
      ],
      { unique: [['turnoutId', 'volunteerId']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
