import type { MigrationInterface, QueryRunner } from 'typeorm';
import { createTable, flag, id, instant, integer, oneOf, ref, text } from '../database/tables.js';

const kinds = [
  'roster-posted',
  'place-changed',
  'place-wanted',
  'card-expiring',
  'turnout-called-off',
  'incident',
  'minor-came-and-left',
  'yard-notice',
];

/** What people are told, how they want to be told, and when the yard is quiet. */
export class Messages1764100200001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'message',
      [
        id(),
        ref('organisationId', null, { indexed: false }),
        ref('recipientId', null, { indexed: false }),
        oneOf('kind', kinds),
        text('key'),
        text('subject'),
        text('words'),
        text('path', { nullable: true }),
        flag('isShown'),
        instant('postedAt'),
        instant('readAt', { nullable: true }),
        oneOf('mail', ['none', 'waiting', 'sending', 'sent', 'dead']),
        flag('evenAtNight'),
        instant('dueAt'),
        integer('tries'),
        text('tryId', { nullable: true }),
        instant('leaseUntil', { nullable: true }),
        instant('sentAt', { nullable: true }),
        text('trouble', { nullable: true }),
      ],
      {
        unique: [['organisationId', 'recipientId', 'key']],
        indexed: [
          ['recipientId', 'postedAt'],
          ['mail', 'dueAt'],
        ],
      },
    );
    await createTable(
      runner,
      'message_choice',
      [
        id(),
        ref('organisationId', null),
        ref('recipientId', null, { indexed: false }),
        oneOf('kind', kinds),
        oneOf('way', ['email', 'page', 'off']),
      ],
      { unique: [['recipientId', 'kind']] },
    );
    await createTable(runner, 'quiet_hours', [id('organisationId'), text('fromTime'), text('toTime')]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
