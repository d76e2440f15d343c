import type { MigrationInterface, QueryRunner } from 'typeorm';
import { createTable, id, instant, integer, json, oneOf, ref, text } from '../database/tables.js';

export class Platform1764000000000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'yard_clock', [id('organisationId'), instant('standsAt')]);
    await createTable(runner, 'revision', [id('organisationId'), integer('number')]);
    await createTable(
      runner,
      'compute_job',
      [
        id(),
        ref('organisationId', null, { indexed: false }),
        text('name'),
        integer('revision'),
        text('why'),
        json('payload'),
        oneOf('state', ['waiting', 'running', 'done', 'failed']),
        instant('askedAt'),
        instant('dueAt'),
        instant('startedAt', { nullable: true }),
        instant('finishedAt', { nullable: true }),
        integer('tries'),
        text('runId', { nullable: true }),
        instant('leaseUntil', { nullable: true }),
        json('progress', { nullable: true }),
        text('message', { nullable: true }),
      ],
      {
        indexed: [
          ['organisationId', 'name', 'state'],
          ['state', 'dueAt'],
        ],
      },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
