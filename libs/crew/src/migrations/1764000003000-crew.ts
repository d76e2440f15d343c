import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, ref, text, integer, real, day, flag, instant, oneOf, version } = column;

const organisation = (options: { indexed?: boolean } = {}) =>
  ref('organisationId', 'organisation', { onDelete: 'CASCADE', ...options });

/** Skills, card kinds, volunteers, what they can do, their cards and when they can come. */
export class Crew1764000003000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const list of ['skill', 'card_kind'])
      await createTable(runner, list, [id(), organisation({ indexed: false }), text('ref'), text('name')], {
        unique: [['organisationId', 'ref']],
      });
    await createTable(
      runner,
      'volunteer',
      [
        id(),
        organisation({ indexed: false }),
        text('ref'),
        version(),
        text('name'),
        oneOf('kind', ['volunteer', 'staff', 'paid']),
        day('bornOn', { nullable: true }),
        text('email', { nullable: true }),
        real('showUpChance'),
        integer('minutesAWeek', { nullable: true }),
        integer('minutesATurnout', { nullable: true }),
      ],
      {
        unique: [['organisationId', 'ref']],
        checks: ['"showUpChance" >= 0 AND "showUpChance" <= 1'],
      },
    );
    await createTable(
      runner,
      'volunteer_skill',
      [
        id(),
        organisation(),
        ref('volunteerId', 'volunteer', { onDelete: 'CASCADE', indexed: false }),
        ref('skillId', 'skill'),
        integer('level'),
        text('signedOffBy', { nullable: true }),
        instant('signedOffAt', { nullable: true }),
      ],
      { unique: [['volunteerId', 'skillId']], checks: ['"level" BETWEEN 0 AND 4'] },
    );
    await createTable(runner, 'card', [
      id(),
      organisation(),
      ref('volunteerId', 'volunteer', { onDelete: 'CASCADE' }),
      ref('kindId', 'card_kind'),
      text('issuer'),
      day('expiresOn', { nullable: true }),
    ]);
    await createTable(runner, 'availability_rule', [
      id(),
      organisation(),
      ref('volunteerId', 'volunteer', { onDelete: 'CASCADE' }),
      text('rule'),
      day('startsOn'),
      day('untilOn', { nullable: true }),
      text('fromTime', { nullable: true }),
      text('toTime', { nullable: true }),
    ]);
    await createTable(runner, 'availability_exception', [
      id(),
      organisation(),
      ref('volunteerId', 'volunteer', { onDelete: 'CASCADE' }),
      day('fromOn'),
      day('toOn'),
      flag('canCome'),
      text('fromTime', { nullable: true }),
      text('toTime', { nullable: true }),
    ]);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
