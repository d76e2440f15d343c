import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, ref, text, day, oneOf } = column;

const nullable = { nullable: true };

/** What the yard was told about its lift slots. */
export class SlotWords1764420000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'slot_word', [
      id(),
      ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
      ref('slotId', 'lift_slot', { onDelete: 'CASCADE' }),
      oneOf('word', ['confirmed', 'released', 'taken back']),
      day('givenOn'),
      text('givenBy'),
      text('yardSays', nullable),
      text('note', nullable),
    ]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
