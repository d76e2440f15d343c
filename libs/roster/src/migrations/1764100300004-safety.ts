import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { day, id, instant, json, oneOf, ref, text, version } = column;
const maybe = { nullable: true } as const;

/** Incidents, closing rounds and the organisation's list for them. */
export class Safety1764100300004 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'incident', [
      id(),
      ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
      version(),
      oneOf('kind', ['near-miss', 'hurt', 'damage']),
      text('what'),
      text('place'),
      text('who', maybe),
      instant('reportedAt'),
      text('reportedBy'),
      ref('accountId', null, { indexed: false }),
      ref('ownerId', null, { nullable: true, indexed: false }),
      text('followUp', maybe),
      day('dueOn', maybe),
      instant('closedAt', maybe),
      text('closedBy', maybe),
      text('outcome', maybe),
      text('picture', maybe),
      text('pictureType', maybe),
    ]);
    await createTable(
      runner,
      'closing_round',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('turnoutId', 'turnout', { onDelete: 'CASCADE', indexed: false }),
        json('items'),
        json('accountedIds'),
        text('closedBy'),
        instant('closedAt'),
      ],
      { unique: [['turnoutId']] },
    );
    await createTable(runner, 'closing_list', [id('organisationId'), json('items')]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
