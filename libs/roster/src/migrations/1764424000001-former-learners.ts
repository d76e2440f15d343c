import type { MigrationInterface, QueryRunner } from 'typeorm';
import { formerLearners } from '../places/former-learners.js';

/** Learners' places of before say beside whom, so that they count to no crew; none tells of a wish. */
export class FormerLearners1764424000001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const statement of formerLearners) await runner.query(statement);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
