import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { day, id, instant, integer, json, oneOf, real, ref, text } = column;

/** Forecasts, the trend of their dates, advice, what-ifs, baselines, and paces set by hand. */
export class Outlook1764100700000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    const yard = ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false });
    await createTable(runner, 'forecast', [
      ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
      id('planId'),
      integer('revision'),
      instant('madeAt'),
      json('document'),
      json('beliefs'),
    ]);
    await createTable(
      runner,
      'outlook_mark',
      [
        id(),
        yard,
        day('markedOn'),
        integer('revision'),
        instant('madeAt'),
        day('evenOn', { nullable: true }),
        day('likelyOn', { nullable: true }),
        day('gateOn'),
        real('gateOdds'),
        json('reasons'),
      ],
      { unique: [['organisationId', 'markedOn']] },
    );
    await createTable(runner, 'advice', [
      id('organisationId'),
      text('planId'),
      instant('madeAt'),
      json('document'),
    ]);
    await createTable(runner, 'what_if', [
      id(),
      ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
      text('name'),
      json('changes'),
      text('askedBy'),
      instant('askedAt'),
      oneOf('state', ['waiting', 'done', 'failed']),
      json('result', { nullable: true }),
      text('message', { nullable: true }),
    ]);
    await createTable(runner, 'baseline', [
      id(),
      ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
      text('name'),
      day('keptOn'),
      text('keptBy'),
      instant('madeAt'),
      json('document'),
    ]);
    await createTable(
      runner,
      'pinned_pace',
      [id(), yard, text('kind'), real('pace'), text('reason'), text('pinnedBy'), instant('pinnedAt')],
      { unique: [['organisationId', 'kind']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
