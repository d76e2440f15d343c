import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, instant, integer, json, ref, text } = column;

/** Plans, what they were made from, and which one is in force. */
export class Planning1764000006000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'plan_input',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
        text('hash'),
        text('document'),
      ],
      { unique: [['organisationId', 'hash']] },
    );
    await createTable(
      runner,
      'plan',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
        ref('inputId', 'plan_input', { onDelete: 'CASCADE' }),
        integer('revision'),
        ref('jobId'),
        instant('madeAt'),
        instant('readyAt', { nullable: true }),
        integer('schedules'),
        json('outcome'),
        json('notices'),
      ],
      { indexed: [['organisationId', 'madeAt']] },
    );
    await createTable(runner, 'plan_in_force', [
      id('organisationId'),
      ref('planId', null, { nullable: true, indexed: false }),
      integer('revision'),
      instant('value'),
    ]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
