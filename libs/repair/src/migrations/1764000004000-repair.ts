import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, ref, text, integer, real, day, flag, instant, json, oneOf, version } = column;

const nullable = { nullable: true };
const organisation = (options: { indexed?: boolean } = {}) =>
  ref('organisationId', 'organisation', { onDelete: 'CASCADE', ...options });
const partOf = (name: string, table: string, options: { indexed?: boolean } = {}) =>
  ref(name, table, { onDelete: 'CASCADE', ...options });

async function haulOut(runner: QueryRunner): Promise<void> {
  await createTable(runner, 'vessel', [
    id(),
    organisation(),
    text('name'),
    text('rig', nullable),
    ...[
      'builtYear',
      'lengthMillimetres',
      'beamMillimetres',
      'draftMillimetres',
      'frameCount',
      'strakeCount',
      'roomAndSpaceMillimetres',
    ].map((name) => integer(name, nullable)),
  ]);
  await createTable(runner, 'haul_out', [
    id(),
    organisation(),
    ref('vesselId', 'vessel'),
    version(),
    day('hauledOutOn'),
    text('timeZone'),
  ]);
  await createTable(
    runner,
    'lift_slot',
    [
      id(),
      organisation(),
      partOf('haulOutId', 'haul_out', { indexed: false }),
      text('ref'),
      oneOf('kind', ['gate', 'fallback', 'later']),
      day('liftsOn'),
      text('startTime'),
      text('endTime'),
      instant('startsAt'),
      instant('endsAt'),
      day('confirmBy', nullable),
      integer('extraCostCents'),
      text('note', nullable),
    ],
    { unique: [['haulOutId', 'ref']] },
  );
}

async function hull(runner: QueryRunner): Promise<void> {
  const unique = [['organisationId', 'ref']];
  await createTable(
    runner,
    'tool',
    [id(), organisation({ indexed: false }), text('ref'), text('name'), integer('capacity')],
    { unique },
  );
  await createTable(
    runner,
    'hull_element',
    [
      id(),
      organisation({ indexed: false }),
      text('ref'),
      text('name'),
      oneOf('kind', ['frame', 'plank', 'ceiling', 'floor', 'deck', 'other']),
      oneOf('side', ['port', 'starboard'], nullable),
      integer('frame', nullable),
      integer('strake', nullable),
    ],
    { unique },
  );
  await createTable(
    runner,
    'opening_limit',
    [
      id(),
      organisation({ indexed: false }),
      text('ref'),
      version(),
      text('name'),
      json('elementIds'),
      integer('atMost'),
      text('basis'),
      text('overrideBy', nullable),
      text('overrideReason', nullable),
      instant('overriddenAt', nullable),
    ],
    { unique },
  );
}

async function tasks(runner: QueryRunner): Promise<void> {
  await createTable(
    runner,
    'task',
    [
      id(),
      organisation({ indexed: false }),
      text('ref'),
      version(),
      text('title'),
      oneOf('kind', ['work', 'fixed', 'elapsed', 'hold', 'launch']),
      text('position', nullable),
      oneOf('estimateBy', ['count', 'work', 'time'], nullable),
      text('unit', nullable),
      integer('count', nullable),
      real('low', nullable),
      real('likely', nullable),
      real('high', nullable),
      integer('crewMin'),
      integer('crewEfficient'),
      integer('crewMax'),
      json('cardKindIds'),
      integer('leastAge', nullable),
      flag('oneGo'),
      integer('setUpMinutes'),
      real('extraHandShare'),
      real('learnerShare'),
      json('hazards'),
      json('ownCautions'),
      day('notBefore', nullable),
      text('held', nullable),
      day('startedOn', nullable),
      day('endedOn', nullable),
      instant('droppedAt', nullable),
      text('dropReason', nullable),
    ],
    { unique: [['organisationId', 'ref']] },
  );
  await createTable(
    runner,
    'seat',
    [
      id(),
      organisation(),
      partOf('taskId', 'task'),
      ref('skillId', 'skill'),
      integer('level'),
      integer('count'),
      json('cardKindIds'),
    ],
    { checks: ['"level" BETWEEN 1 AND 4'] },
  );
  await createTable(
    runner,
    'task_tool',
    [
      id(),
      organisation(),
      partOf('taskId', 'task', { indexed: false }),
      ref('toolId', 'tool'),
      integer('count'),
    ],
    { unique: [['taskId', 'toolId']] },
  );
  await createTable(
    runner,
    'task_opening',
    [
      id(),
      organisation(),
      partOf('taskId', 'task', { indexed: false }),
      ref('elementId', 'hull_element'),
      oneOf('does', ['opens', 'closes']),
    ],
    { unique: [['taskId', 'elementId', 'does']] },
  );
  await createTable(
    runner,
    'task_link',
    [
      id(),
      organisation(),
      version(),
      partOf('beforeId', 'task', { indexed: false }),
      partOf('afterId', 'task'),
      oneOf('relation', ['finish-to-start', 'start-to-start', 'finish-to-finish', 'start-to-finish']),
      integer('lagMinutes'),
      oneOf('lagKind', ['working', 'elapsed']),
    ],
    { unique: [['beforeId', 'afterId', 'relation']] },
  );
}

async function done(runner: QueryRunner): Promise<void> {
  await createTable(
    runner,
    'tally',
    [
      id(),
      organisation(),
      partOf('taskId', 'task'),
      ref('volunteerId', 'volunteer', nullable),
      ref('turnoutId', null, nullable),
      day('workedOn'),
      integer('count', nullable),
      integer('minutes'),
      flag('finished'),
      text('note', nullable),
      instant('yardAt'),
      instant('enteredAt'),
      text('enteredBy'),
      ref('correctsId', 'tally', { nullable: true, onDelete: 'CASCADE', indexed: false }),
      text('reason', nullable),
    ],
    { unique: [['correctsId']] },
  );
  await createTable(runner, 'say_so', [
    id(),
    organisation(),
    partOf('taskId', 'task'),
    oneOf('verdict', ['passed', 'sent-back']),
    text('saidBy'),
    instant('yardAt'),
    instant('saidAt'),
    text('note', nullable),
    integer('countBack'),
    integer('minutesBack'),
  ]);
}

/** Vessel and haul-out, tools, hull elements and their limits, tasks and links, tallies and say-sos. */
export class Repair1764000004000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const part of [haulOut, hull, tasks, done]) await part(runner);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
