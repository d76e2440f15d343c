import { column } from '@ribband/platform';
import { TableColumn, type MigrationInterface, type QueryRunner } from 'typeorm';

/** What people would like to learn. */
export class WishToLearn1764419000003 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    const { column: wouldLearn } = column.json('wouldLearn', { nullable: true });
    await runner.addColumn('person_wish', new TableColumn(wouldLearn));
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
