import { permitKinds, tagKinds } from '@ribband/crew';
import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, ref, text, integer, real, day, flag, instant, json, oneOf } = column;

const organisation = (options: { indexed?: boolean } = {}) =>
  ref('organisationId', 'organisation', { onDelete: 'CASCADE', ...options });

/** Permits, inspection tags, the day's weather, how loud it is, and what an organisation sets for itself. */
export class Permits1764100100001 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'permit', [
      id(),
      organisation(),
      oneOf('kind', permitKinds),
      ref('taskId', 'task', { onDelete: 'CASCADE', nullable: true }),
      text('by'),
      instant('opensAt'),
      instant('expiresAt'),
      real('oxygenPercent', { nullable: true }),
      real('flammablePercent', { nullable: true }),
      text('note', { nullable: true }),
      instant('closedAt', { nullable: true }),
      text('closedBy', { nullable: true }),
    ]);
    await createTable(runner, 'safety_tag', [
      id(),
      organisation(),
      oneOf('kind', tagKinds),
      text('name'),
      day('inspectedOn'),
      text('inspectedBy'),
      day('expiresOn'),
      text('withdrawnBy', { nullable: true }),
    ]);
    await createTable(
      runner,
      'day_weather',
      [
        id(),
        organisation({ indexed: false }),
        day('heldOn'),
        integer('highFahrenheit', { nullable: true }),
        integer('lowFahrenheit', { nullable: true }),
        integer('windMilesAnHour', { nullable: true }),
        integer('airQualityIndex', { nullable: true }),
        flag('thunder'),
        text('holdReason', { nullable: true }),
        json('holdHazards'),
        text('writtenBy'),
      ],
      { unique: [['organisationId', 'heldOn']] },
    );
    await createTable(
      runner,
      'loudness',
      [
        id(),
        organisation({ indexed: false }),
        ref('toolId', 'tool', { onDelete: 'CASCADE', nullable: true }),
        integer('dba'),
        day('measuredOn'),
        text('by'),
      ],
      { unique: [['organisationId', 'toolId']] },
    );
    await createTable(
      runner,
      'yard_safety',
      [
        id(),
        organisation({ indexed: false }),
        integer('protectorsRating', { nullable: true }),
        json('ages', { nullable: true }),
        text('agesReason', { nullable: true }),
        text('agesBy', { nullable: true }),
      ],
      { unique: [['organisationId']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
