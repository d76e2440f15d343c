import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { day, id, integer, json, ref, text } = column;

/** What people ask for themselves, and what parents have said yes to. */
export class Wishes1764100200002 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'person_wish', [
      id('volunteerId'),
      ref('organisationId'),
      integer('turnoutsAMonth', { nullable: true }),
      json('ratherNots'),
    ]);
    await createTable(runner, 'guardian_consent', [
      id(),
      ref('organisationId'),
      ref('volunteerId'),
      text('guardianName'),
      text('guardianEmail', { nullable: true }),
      json('kinds'),
      text('how'),
      day('givenOn'),
      text('writtenBy'),
      day('withdrawnOn', { nullable: true }),
    ]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
