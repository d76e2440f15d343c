import { column } from '@ribband/platform';
import { TableColumn, type MigrationInterface, type QueryRunner } from 'typeorm';

/** Places of an all-hands day have a role, and may ask for a card of their own. */
export class Roles1764425000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const name of ['role', 'cardKindId'])
      await runner.addColumn('place', new TableColumn(column.text(name, { nullable: true }).column));
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
