import { column, createTable } from '@ribband/platform';
import { TableColumn, type MigrationInterface, type QueryRunner } from 'typeorm';

const { id, ref, text, integer, real, day, flag, instant, json, oneOf, version } = column;

const nullable = { nullable: true };
const organisation = (options: { indexed?: boolean } = {}) =>
  ref('organisationId', 'organisation', { onDelete: 'CASCADE', ...options });
const partOf = (name: string, table: string, options: { indexed?: boolean; nullable?: boolean } = {}) =>
  ref(name, table, { onDelete: 'CASCADE', ...options });
const sides = ['port', 'starboard'];

async function openings(runner: QueryRunner): Promise<void> {
  for (const name of ['overrideElementIds', 'overrideUntilOn'])
    await runner.addColumn('opening_limit', new TableColumn({ name, type: 'text', isNullable: true }));
  await createTable(runner, 'element_report', [
    id(),
    organisation(),
    partOf('elementId', 'hull_element'),
    flag('isOpen'),
    text('seenBy'),
    instant('yardAt'),
    instant('enteredAt'),
    text('enteredBy'),
    text('note', nullable),
  ]);
  await createTable(
    runner,
    'hull_support',
    [
      id(),
      organisation({ indexed: false }),
      text('ref'),
      version(),
      oneOf('kind', ['shore', 'brace', 'ribband']),
      oneOf('side', sides, nullable),
      integer('firstFrame', nullable),
      integer('lastFrame', nullable),
      partOf('taskId', 'task', nullable),
      day('seenOn', nullable),
      text('seenBy', nullable),
      day('struckOn', nullable),
      text('struckBy', nullable),
    ],
    { unique: [['organisationId', 'ref']] },
  );
}

async function marks(runner: QueryRunner): Promise<void> {
  await createTable(
    runner,
    'witness_mark',
    [
      id(),
      organisation({ indexed: false }),
      text('ref'),
      text('name'),
      oneOf('kind', ['breadth', 'keel', 'sheer', 'other']),
      integer('frame', nullable),
      integer('everyDays'),
      instant('madeAt'),
    ],
    { unique: [['organisationId', 'ref']] },
  );
  await createTable(runner, 'mark_reading', [
    id(),
    organisation(),
    partOf('markId', 'witness_mark'),
    day('readOn'),
    oneOf('time', ['afloat', 'after blocking', 'later']),
    text('reader'),
    real('millimetres'),
    instant('enteredAt'),
    text('enteredBy'),
    text('struckBy', nullable),
    text('struckReason', nullable),
  ]);
  await createTable(runner, 'hold_lift', [
    id(),
    organisation(),
    partOf('markId', 'witness_mark'),
    text('by'),
    text('reason'),
    instant('liftedAt'),
  ]);
}

async function closing(runner: QueryRunner): Promise<void> {
  await createTable(
    runner,
    'hold_point',
    [
      id(),
      organisation(),
      partOf('taskId', 'task', { indexed: false }),
      oneOf('eyes', ['surveyor', 'insurer', 'funder', 'inspector', 'sling']),
      integer('noticeDays'),
      day('noticeOn', nullable),
      text('noticeBy', nullable),
      day('seenOn', nullable),
      text('seenBy', nullable),
      text('note', nullable),
    ],
    { unique: [['taskId']] },
  );
  await createTable(
    runner,
    'layout_choice',
    [
      id(),
      organisation({ indexed: false }),
      oneOf('side', sides),
      json('butts'),
      text('by'),
      text('reason'),
      instant('chosenAt'),
    ],
    { unique: [['organisationId', 'side']] },
  );
}

/** What is really open and what holds her, witness marks, eyes from outside, chosen plank layouts. */
export class Openings1764000008200 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const part of [openings, marks, closing]) await part(runner);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
