import { column } from '@ribband/platform';
import { TableColumn, type MigrationInterface, type QueryRunner } from 'typeorm';

const nullable = { nullable: true };

/** What a forecast is compared with, and what became of a what-if that was applied. */
export class OutlookBefore1764415000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const { column: added } of [column.instant('lookedAt', nullable), column.json('before', nullable)])
      await runner.addColumn('forecast', new TableColumn(added));
    await runner.addColumn('what_if', new TableColumn(column.json('applied', nullable).column));
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
