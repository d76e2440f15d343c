import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { flag, id, instant, json, oneOf, real, ref, text, version } = column;

export class Access1764000001000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(runner, 'organisation', [
      id(),
      version(),
      text('name'),
      oneOf('units', ['imperial', 'metric']),
      real('crewOddsWish'),
      flag('isDemo'),
    ]);
    await createTable(runner, 'account', [
      id(),
      text('email', { unique: true }),
      text('name'),
      text('passwordHash'),
      flag('hasOneTimePassword'),
      instant('openedAt'),
    ]);
    await createTable(
      runner,
      'membership',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('accountId', 'account', { onDelete: 'CASCADE' }),
        oneOf('role', ['director', 'coordinator', 'shipwright', 'volunteer']),
        ref('volunteerId', null, { nullable: true }),
      ],
      { unique: [['organisationId', 'accountId']] },
    );
    await createTable(
      runner,
      'login_session',
      [
        id('tokenHash'),
        ref('accountId', 'account', { onDelete: 'CASCADE' }),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        instant('beganAt'),
        instant('expiresAt'),
      ],
      { indexed: [['expiresAt']] },
    );
    await createTable(
      runner,
      'audit_entry',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
        instant('at'),
        ref('accountId', null, { nullable: true, indexed: false }),
        text('who'),
        text('operation'),
        ref('subjectId', null, { nullable: true }),
        json('facts'),
      ],
      { indexed: [['organisationId', 'at']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
