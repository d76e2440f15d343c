import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, instant, json, oneOf, ref, text } = column;

/** The odds of the gate at each level of care of fastenings. */
export class CareOdds1764408000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'care_odds',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
        text('planId'),
        text('fastening'),
        oneOf('care', ['save all', 'save sound ones', 'renew']),
        oneOf('state', ['waiting', 'done', 'failed']),
        json('gate', { nullable: true }),
        text('message', { nullable: true }),
        instant('askedAt'),
      ],
      { unique: [['organisationId', 'planId', 'fastening', 'care']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
