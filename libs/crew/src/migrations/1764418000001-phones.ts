import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, ref, text } = column;

/** Where people are rung up. */
export class Phones1764418000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'volunteer_phone', [id('volunteerId'), ref('organisationId'), text('number')]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
