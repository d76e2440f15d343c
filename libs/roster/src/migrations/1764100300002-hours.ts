import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { day, flag, id, instant, integer, json, oneOf, ref, text, version } = column;
const own = () => ref('organisationId', 'organisation', { onDelete: 'CASCADE' });
const ownUnindexed = () => ref('organisationId', 'organisation', { onDelete: 'CASCADE', indexed: false });
const unindexed = { indexed: false } as const;
const maybe = { nullable: true } as const;

/** The hours book: kinds of work, entries, closed periods, grants, rates, reports and what they claim. */
export class Hours1764100300002 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    await createTable(
      runner,
      'work_kind',
      [
        id(),
        ownUnindexed(),
        version(),
        text('name'),
        ref('skillId', null, { nullable: true, indexed: false }),
      ],
      { unique: [['organisationId', 'name']] },
    );
    await createTable(
      runner,
      'hour_entry',
      [
        id(),
        ownUnindexed(),
        ref('rootId'),
        ref('volunteerId', null, unindexed),
        ref('taskId', null, maybe),
        ref('turnoutId', null, maybe),
        ref('kindId', 'work_kind', unindexed),
        day('workedOn'),
        instant('startsAt', maybe),
        instant('endsAt', maybe),
        integer('minutes', maybe),
        oneOf('way', ['self', 'coordinator', 'paper', 'adjustment']),
        text('note', maybe),
        instant('enteredAt'),
        text('enteredBy'),
        text('endedBy', maybe),
        flag('isVoid'),
        ref('correctsId', 'hour_entry', { nullable: true, onDelete: 'CASCADE', indexed: false }),
        ref('adjustsId', 'hour_entry', { nullable: true, onDelete: 'CASCADE' }),
        text('reason', maybe),
      ],
      {
        unique: [['correctsId']],
        indexed: [
          ['organisationId', 'workedOn'],
          ['volunteerId', 'workedOn'],
        ],
      },
    );
    await createTable(
      runner,
      'hour_period',
      [id(), ownUnindexed(), day('fromOn'), day('toOn'), text('closedBy'), instant('closedAt')],
      { unique: [['organisationId', 'fromOn']] },
    );
    await createTable(
      runner,
      'hour_grant',
      [
        id(),
        ownUnindexed(),
        version(),
        text('name'),
        text('funder'),
        text('awardNumber', maybe),
        day('fromOn'),
        day('toOn'),
        json('kindIds'),
      ],
      { unique: [['organisationId', 'name']] },
    );
    await createTable(runner, 'hour_rate', [
      id(),
      own(),
      ref('kindId', 'work_kind', { nullable: true, indexed: false }),
      ref('grantId', 'hour_grant', { nullable: true, indexed: false }),
      day('fromOn'),
      integer('centsAnHour'),
      text('source'),
      text('enteredBy'),
      instant('enteredAt'),
    ]);
    await createTable(runner, 'grant_report', [
      id(),
      own(),
      ref('grantId', 'hour_grant'),
      day('fromOn'),
      day('toOn'),
      json('document'),
      text('csv'),
      text('hash'),
      integer('minutes'),
      integer('cents'),
      text('madeBy'),
      instant('madeAt'),
      instant('withdrawnAt', maybe),
      text('withdrawnBy', maybe),
      text('withdrawReason', maybe),
    ]);
    await createTable(
      runner,
      'hour_claim',
      [
        id(),
        own(),
        ref('entryId', 'hour_entry', { onDelete: 'CASCADE', indexed: false }),
        ref('grantId', 'hour_grant'),
        ref('reportId', 'grant_report', { onDelete: 'CASCADE' }),
      ],
      { unique: [['entryId']] },
    );
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
