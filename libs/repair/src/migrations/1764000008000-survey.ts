import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, ref, text, instant, integer, json, version } = column;

const ofHaulOut = () => [
  id(),
  ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
  ref('haulOutId', 'haul_out', { onDelete: 'CASCADE', indexed: false }),
  version(),
];
const changed = () => [text('changedBy'), instant('changedAt')];

/** What the survey found, the yard's methods, and which method made a task. */
export class Survey1764000008000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    const unique = [['haulOutId']];
    await createTable(runner, 'survey', [...ofHaulOut(), json('survey'), ...changed()], { unique });
    await createTable(runner, 'methods', [...ofHaulOut(), json('methods'), json('made'), ...changed()], {
      unique,
    });
    await createTable(
      runner,
      'task_origin',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('taskId', 'task', { onDelete: 'CASCADE', indexed: false }),
        text('element'),
        text('step'),
        text('methodKey'),
        integer('methodVersion'),
      ],
      { unique: [['taskId']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
