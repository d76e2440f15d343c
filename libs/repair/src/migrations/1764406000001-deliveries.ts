import { TableColumn, type MigrationInterface, type QueryRunner } from 'typeorm';

/** When stock was promised at first, and when it came. */
export class Deliveries1764406000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const name of ['promisedOn', 'cameOn'])
      await runner.addColumn('timber_flitch', new TableColumn({ name, type: 'text', isNullable: true }));
    await runner.query('UPDATE timber_flitch SET "promisedOn" = "expectedOn"');
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
