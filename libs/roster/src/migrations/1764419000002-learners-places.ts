import { column } from '@ribband/platform';
import { TableColumn, type MigrationInterface, type QueryRunner } from 'typeorm';

/** Beside whom somebody learns, over and above the crew. */
export class LearnersPlaces1764419000002 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await runner.addColumn('place', new TableColumn(column.text('teacherId', { nullable: true }).column));
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
