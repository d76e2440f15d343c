import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { day, id, instant, json, ref } = column;

/** Forecasts of plans, and how they moved from day to day. */
export class Forecast1764100070001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'forecast',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
        ref('planId', 'plan', { onDelete: 'CASCADE' }),
        instant('madeAt'),
        json('result'),
        json('paces'),
      ],
      { indexed: [['organisationId', 'madeAt']] },
    );
    await createTable(
      runner,
      'forecast_day',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
        day('madeOn'),
        json('readyOn'),
        json('odds'),
        json('why'),
      ],
      { unique: [['organisationId', 'madeOn']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
