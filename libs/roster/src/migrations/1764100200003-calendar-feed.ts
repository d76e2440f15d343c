import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, instant, integer, json, ref, text } = column;

/** Secret addresses of calendars, and what each calendar was told. */
export class CalendarFeed1764100200003 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'calendar_feed', [
      id(),
      ref('organisationId'),
      ref('volunteerId'),
      text('tokenHash', { unique: true }),
      instant('madeAt'),
      instant('readAt', { nullable: true }),
    ]);
    await createTable(
      runner,
      'calendar_event',
      [
        id(),
        ref('organisationId'),
        ref('volunteerId', null, { indexed: false }),
        ref('placeId', null, { indexed: false }),
        integer('sequence'),
        json('shown'),
        instant('changedAt'),
      ],
      { unique: [['volunteerId', 'placeId']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
