import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { day, id, instant, integer, oneOf, ref, text, version } = column;

/** Turnout rules, closed days, turnouts and places. */
export class Roster1764000005000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'turnout_rule',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
        text('ref'),
        version(),
        text('rule'),
        day('startsOn'),
        day('untilOn', { nullable: true }),
        text('startTime'),
        text('endTime'),
      ],
      { unique: [['organisationId', 'ref']] },
    );
    await createTable(
      runner,
      'closed_day',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
        day('closedOn'),
        text('reason', { nullable: true }),
      ],
      { unique: [['organisationId', 'closedOn']] },
    );
    await createTable(
      runner,
      'turnout',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false }),
        ref('ruleId', 'turnout_rule', { nullable: true, onDelete: 'SET NULL' }),
        version(),
        day('heldOn'),
        text('startTime'),
        text('endTime'),
        instant('startsAt'),
        instant('endsAt'),
        text('note', { nullable: true }),
        instant('cancelledAt', { nullable: true }),
        text('cancelReason', { nullable: true }),
      ],
      { unique: [['organisationId', 'heldOn', 'startTime']], indexed: [['organisationId', 'startsAt']] },
    );
    await createTable(
      runner,
      'place',
      [
        id(),
        ref('organisationId', 'organisation', { onDelete: 'CASCADE' }),
        ref('turnoutId', 'turnout', { indexed: false }),
        ref('taskId'),
        version(),
        ref('skillId', null, { nullable: true, indexed: false }),
        integer('level'),
        ref('volunteerId', null, { nullable: true, indexed: false }),
        oneOf('state', ['posted', 'taken', 'left']),
        instant('startsAt'),
        instant('endsAt'),
        text('why', { nullable: true }),
        ref('planId', null, { nullable: true, indexed: false }),
        instant('takenAt', { nullable: true }),
        instant('leftAt', { nullable: true }),
        text('leftReason', { nullable: true }),
      ],
      {
        indexed: [
          ['turnoutId', 'taskId'],
          ['volunteerId', 'state'],
        ],
      },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
