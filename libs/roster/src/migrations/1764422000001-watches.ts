import { column } from '@ribband/platform';
import { TableCheck, TableColumn, type MigrationInterface, type QueryRunner } from 'typeorm';

/** Turnouts that are watches or all-hands days. */
export class Watches1764422000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    const kind = column.oneOf('kind', ['watch', 'all-hands'], { nullable: true });
    await runner.addColumn('turnout', new TableColumn(kind.column));
    await runner.createCheckConstraint('turnout', new TableCheck({ expression: kind.check ?? '' }));
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
