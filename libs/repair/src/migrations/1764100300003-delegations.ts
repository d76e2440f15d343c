import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { day, id, instant, json, oneOf, ref, text } = column;

/** The shipwright's say-so in other hands. */
export class Delegations1764100300003 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'delegation', [
      id(),
      ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
      ref('volunteerId', 'volunteer', { onDelete: 'CASCADE' }),
      oneOf('scope', ['all', 'kind', 'position', 'skill', 'tasks']),
      json('names'),
      day('fromOn'),
      day('untilOn'),
      text('reason'),
      text('givenBy'),
      instant('givenAt'),
      instant('revokedAt', { nullable: true }),
      text('revokedBy', { nullable: true }),
    ]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
