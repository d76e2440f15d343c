import { TableColumn, type MigrationInterface, type QueryRunner } from 'typeorm';

/** When stock for a piece that has none was promised at first. */
export class Promises1764420000002 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    const column = new TableColumn({ name: 'promisedOn', type: 'text', isNullable: true });
    await runner.addColumn('stock_promise', column);
    await runner.query('UPDATE stock_promise SET "promisedOn" = "expectedOn"');
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
