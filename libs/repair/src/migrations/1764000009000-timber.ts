import { column, createTable } from '@ribband/platform';
import type { MigrationInterface, QueryRunner } from 'typeorm';

const { id, ref, text, integer, real, day, instant, json, oneOf, version } = column;

const nullable = { nullable: true };
const organisation = (options: { indexed?: boolean } = {}) =>
  ref('organisationId', 'organisation', { onDelete: 'CASCADE', ...options });
const markedOnce = { unique: [['organisationId', 'mark']] };

async function stock(runner: QueryRunner): Promise<void> {
  await createTable(runner, 'timber_source', [
    id(),
    organisation(),
    version(),
    text('name'),
    oneOf('kind', ['bought', 'gift', 'own stock']),
    text('note', nullable),
    day('thankedOn', nullable),
    text('thankedBy', nullable),
  ]);
  await createTable(runner, 'timber_trip', [
    id(),
    organisation(),
    day('wentOn'),
    text('whereTo'),
    integer('minutes'),
    json('volunteerIds'),
    text('found', nullable),
    text('enteredBy'),
  ]);
  const source = () => ref('sourceId', 'timber_source', { nullable: true, onDelete: 'SET NULL' });
  await createTable(
    runner,
    'timber_log',
    [
      id(),
      organisation({ indexed: false }),
      version(),
      text('mark'),
      text('species'),
      source(),
      real('diameterInches'),
      real('lengthFeet'),
      day('cameOn', nullable),
      text('reservedFor', nullable),
      text('note', nullable),
    ],
    markedOnce,
  );
  await createTable(
    runner,
    'timber_flitch',
    [
      id(),
      organisation({ indexed: false }),
      version(),
      text('mark'),
      text('species'),
      oneOf('use', ['frames', 'planking']),
      json('taped'),
      ref('logId', 'timber_log', { nullable: true, onDelete: 'SET NULL' }),
      source(),
      day('expectedOn', nullable),
      text('lies', nullable),
      text('reservedFor', nullable),
      day('usedOn', nullable),
    ],
    markedOnce,
  );
  await createTable(runner, 'moisture_reading', [
    id(),
    organisation(),
    ref('flitchId', 'timber_flitch', { onDelete: 'CASCADE' }),
    day('readOn'),
    real('percent'),
    text('enteredBy'),
    instant('enteredAt'),
    text('withdrawnReason', nullable),
  ]);
}

async function layUps(runner: QueryRunner): Promise<void> {
  const haulOut = () => ref('haulOutId', 'haul_out', { onDelete: 'CASCADE' });
  await createTable(runner, 'hull_shape', [
    id(),
    haulOut(),
    organisation(),
    version(),
    json('measured'),
    text('keptBy'),
    instant('keptAt'),
  ]);
  await createTable(runner, 'timber_settings', [
    id(),
    haulOut(),
    organisation(),
    version(),
    ...['fahrenheit', 'humidity', 'plankingPercent'].map((name) => real(name)),
    real('framesPercent', nullable),
    ...['usableShare', 'poundsACubicFoot'].map((name) => real(name)),
    integer('sawMarginMillimetres'),
    real('grainRunOut'),
    integer('leadDays'),
    text('changedBy', nullable),
    text('changedReason', nullable),
  ]);
  await createTable(runner, 'lay_up', [
    id(),
    organisation(),
    oneOf('state', ['proposed', 'kept']),
    json('result'),
    instant('madeAt'),
    day('madeOn'),
    text('keptBy', nullable),
  ]);
  await createTable(
    runner,
    'stock_promise',
    [
      id(),
      organisation({ indexed: false }),
      text('piece'),
      day('expectedOn'),
      text('note', nullable),
      text('enteredBy'),
    ],
    { unique: [['organisationId', 'piece']] },
  );
  await createTable(runner, 'stock_hold', [
    id(),
    ref('taskId', 'task', { onDelete: 'CASCADE' }),
    organisation(),
    day('fromOn'),
    text('why'),
  ]);
}

/** Her measured shape and the timber book. */
export class Timber1764000009000 implements MigrationInterface {
  async up(runner: QueryRunner): Promise<void> {
    for (const part of [stock, layUps]) await part(runner);
  }

  down(): Promise<void> {
    return Promise.reject(new Error('Migrations go forward only'));
  }
}
