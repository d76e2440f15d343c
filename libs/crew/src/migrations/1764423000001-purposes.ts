import { column } from '@ribband/platform';
import { TableColumn, type MigrationInterface, type QueryRunner } from 'typeorm';
import { formerCardPurpose, formerSkillPurpose } from '../purposes/purposes.js';

interface Row {
  id: string;
  ref: string;
  name: string;
}

/** What kinds of cards and skills are taken for; until now it was read from their names. */
export class Purposes1764423000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const [table, purposeOf] of [
      ['card_kind', formerCardPurpose],
      ['skill', formerSkillPurpose],
    ] as const) {
      await runner.addColumn(table, new TableColumn(column.text('purpose', { nullable: true }).column));
      for (const row of (await runner.query(`SELECT "id", "ref", "name" FROM "${table}"`)) as Row[]) {
        const purpose = purposeOf(row);
        if (purpose !== null)
          await runner.query(`UPDATE "${table}" SET "purpose" = '${purpose}' WHERE "id" = '${row.id}'`);
      }
    }
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
